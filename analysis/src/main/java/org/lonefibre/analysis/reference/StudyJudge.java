package org.lonefibre.analysis.reference;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.stream.DoubleStream;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.reference.StudySignal.Acceptance;
import org.lonefibre.analysis.study.EndPlateResult;
import org.lonefibre.analysis.study.LimitsUsed;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.analysis.study.PairStatus;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.SignalMeasures;
import org.lonefibre.analysis.study.StudySummary;
import org.lonefibre.signal.recording.FindingCode;

/**
 * Sums up a study and compares it with one limit set.
 *
 * <ul>
 *   <li>The numbers of the summary and its criteria are those of the full grade; the verdict by the
 *       trade's rules alone is counted apart, with the signals they accept: a pair excluded only
 *       because the full grade calls a potential composite comes back, one whose potential the
 *       rules of thumb refuse leaves.
 *   <li>A signal is above its limit by value, unrounded. Within 2 us it is too close to call, and
 *       each criterion says whether it would still hold if those values counted against what was
 *       found.
 *   <li>A signal without a number that would have had enough differences had it not blocked counts
 *       as raised. It is counted among the signals and among the unmeasurable.
 *   <li>More than 10 % of 20 is 3.
 *   <li>No signal, or no limit set that fits: nothing is compared.
 * </ul>
 *
 * <p>Source of the criteria: review article 2019; Tanhehco 2003. Thread rule: immutable, safe to
 * share.
 */
public final class StudyJudge {

  private static final String TRADE = "By the trade's rules alone";

  private final LimitCatalogue catalogue;
  private final StudySettings settings;

  /** Compares with the sets of a catalogue. */
  public StudyJudge(LimitCatalogue catalogue, StudySettings settings) {
    this.catalogue = catalogue;
    this.settings = settings;
  }

  /**
   * Sums up one study.
   *
   * @param recordings its sites
   * @throws IllegalArgumentException if a limit set is asked for that does not exist
   */
  public StudySummary summarise(StudyDeclaration study, List<RecordingResult> recordings) {
    LimitMatch match = catalogue.match(study);
    LimitRow row = match instanceof LimitMatch.Matched matched ? matched.row() : null;
    List<StudySignal> all = StudySignal.of(recordings);
    StudyTally full = new StudyTally(all, Acceptance.FULL_GRADE, row, settings);
    StudyTally trade = new StudyTally(all, Acceptance.TRADE_RULES, row, settings);
    List<StudySignal> counted = full.signals();
    return new StudySummary(
        counted.size(),
        (int) counted.stream().map(StudySignal::site).distinct().count(),
        full.meanUs(),
        full.medianUs(),
        mean(counted.stream().map(s -> intervalUs(s.signal())).filter(Objects::nonNull)),
        mean(
            counted.stream()
                .filter(s -> s.rateHz() != null)
                .map(s -> new UnitRate(s.site(), s.unit(), Objects.requireNonNull(s.rateHz())))
                .distinct()
                .map(UnitRate::rateHz)),
        full.aboveLimit(),
        full.blocking(),
        full.aboveLimitOrBlocking(),
        count(all, s -> s.hasFinding(FindingCode.LOW_JITTER)),
        count(all, s -> s.signal().status() == PairStatus.EXCLUDED),
        count(all, s -> s.signal().status() == PairStatus.UNMEASURABLE),
        count(all, s -> s.isComposite(Acceptance.TRADE_RULES)),
        count(all, s -> s.isComposite(Acceptance.FULL_GRADE)),
        trade.verdict(),
        full.verdict(),
        row == null ? null : used(row),
        full.criteria(trade, TRADE),
        row == null ? null : full.progress(),
        new StudyAlternatives(all, settings)
            .of(
                row,
                catalogue.listHolding(study).stream().filter(r -> !catalogue.isOff(r)).toList()),
        StudyFindings.of(study, full, match, settings));
  }

  /**
   * What every set that holds for the study would say, in the order of the table. A set that is off
   * is listed and says nothing.
   */
  public List<LimitComparison> compare(StudyDeclaration study, List<RecordingResult> recordings) {
    List<StudySignal> all = StudySignal.of(recordings);
    List<LimitComparison> comparisons = new ArrayList<>();
    for (LimitRow row : catalogue.listHolding(study)) {
      boolean off = catalogue.isOff(row);
      StudyTally full = new StudyTally(all, Acceptance.FULL_GRADE, off ? null : row, settings);
      StudyTally trade = new StudyTally(all, Acceptance.TRADE_RULES, off ? null : row, settings);
      comparisons.add(
          new LimitComparison(
              row.setName(),
              used(row),
              off ? PublishedLimit.OFF : "on",
              full.aboveLimit(),
              full.aboveLimitOrBlocking(),
              full.verdict(),
              full.criteria(trade, TRADE)));
    }
    return comparisons;
  }

  private record UnitRate(int site, int unit, double rateHz) {}

  private static int count(
      List<StudySignal> signals, java.util.function.Predicate<StudySignal> which) {
    return (int) signals.stream().filter(which).count();
  }

  private static @Nullable Double mean(java.util.stream.Stream<Double> values) {
    OptionalDouble mean = values.flatMapToDouble(DoubleStream::of).average();
    return mean.isPresent() ? mean.getAsDouble() : null;
  }

  private static @Nullable Double intervalUs(SignalMeasures signal) {
    Double mean =
        signal instanceof PairResult pair
            ? pair.meanIntervalUs()
            : ((EndPlateResult) signal).meanLatencyUs();
    return mean == null ? null : Math.abs(mean);
  }

  private static LimitsUsed used(LimitRow row) {
    return new LimitsUsed(
        row.setId(),
        row.centreStatistic().name().toLowerCase(Locale.ROOT),
        row.centreUs(),
        row.individualUs(),
        row.outlierRule(),
        row.source(),
        row.statusWords());
  }
}
