package org.lonefibre.validation;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.function.BiFunction;
import java.util.function.LongFunction;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import java.util.stream.Stream;
import org.lonefibre.analysis.SiteAnalyser;
import org.lonefibre.analysis.SiteRequest;
import org.lonefibre.analysis.reference.LimitCatalogue;
import org.lonefibre.analysis.reference.LimitSettings;
import org.lonefibre.analysis.reference.StudyDeclaration;
import org.lonefibre.analysis.reference.StudyJudge;
import org.lonefibre.analysis.reference.StudySettings;
import org.lonefibre.analysis.settings.AnalysisSettings;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.MotorUnitResult;
import org.lonefibre.analysis.study.PairStatus;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.model.simulation.RecordingSimulator;
import org.lonefibre.model.simulation.SimulatedRecording;
import org.lonefibre.model.simulation.StudyPlan;
import org.lonefibre.model.simulation.StudyScenario;
import org.lonefibre.signal.random.RandomStream;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.validation.cases.Pitfall;
import org.lonefibre.validation.score.PitfallScore;

/**
 * How often the chain sees the known pitfalls, and how often it sees them where they are not.
 *
 * <ul>
 *   <li>Each score is a function of the first number and of how many sites alone.
 *   <li>Thread rule: safe.
 * </ul>
 */
public final class PitfallValidation {

  private static final StudyScenario HEALTHY =
      StudyScenario.defaults().withShares(0, 0, 0, 0).withSites(20);

  private static final int SITES_PER_STUDY = 10;
  private static final long NUMBERS_PER_SEED = 1000;

  /**
   * A pitfall and its score.
   *
   * @param title what the sites hold
   * @param score its score
   */
  public record Row(String title, PitfallScore score) {}

  private PitfallValidation() {}

  /**
   * The scores of all pitfalls, each over ten sites with it and ten without it for every study of
   * usual sites.
   *
   * @param done called after each pitfall
   */
  public static List<Row> run(long seed, int studies, Runnable done) {
    List<RecordingResult> usual = usualSites(seed, studies);
    List<Row> rows = new ArrayList<>();
    for (Pitfall pitfall : Pitfall.values()) {
      List<RecordingResult> alike = pitfall.isStimulated() ? List.of() : usual;
      rows.add(
          new Row(
              pitfall.title(),
              score(pitfall, NUMBERS_PER_SEED * seed + 1, SITES_PER_STUDY * studies, alike)));
      done.run();
    }
    rows.add(
        new Row(
            "the last two thirds of a site once more (without: all sites of a study)",
            samePair(seed, studies, PitfallValidation::twice)));
    rows.add(
        new Row(
            "a site recorded again, other discharges (without: all sites of a study)",
            samePair(seed, studies, PitfallValidation::again)));
    return rows;
  }

  /**
   * The score of one pitfall.
   *
   * @param first number of the first site
   * @param sites how many with it, and how many without it
   * @param usual what {@link #usualSites} gave, of the same activation
   */
  public static PitfallScore score(
      Pitfall pitfall, long first, int sites, List<RecordingResult> usual) {
    return new PitfallScore(
        pitfall.code(),
        sites,
        raised(pitfall.code(), results(pitfall::simulateWith, first, sites)),
        sites,
        raised(pitfall.code(), results(pitfall::simulateWithout, first, sites)),
        usual.size(),
        raised(pitfall.code(), usual));
  }

  /** Healthy voluntary sites, with 1.5 units in the mean, some of which collide. */
  public static List<RecordingResult> usualSites(long seed, int studies) {
    return LongStream.range(seed, seed + studies)
        .mapToObj(HEALTHY::draw)
        .flatMap(PitfallValidation::results)
        .toList();
  }

  /**
   * The finding that the same pair is in a study twice: sites of healthy studies, each beside
   * itself once more, against all sites of each study together.
   *
   * @param both a site as it is and once more
   */
  private static PitfallScore samePair(
      long seed, int studies, BiFunction<StudyPlan, Integer, List<RecordingResult>> both) {
    FindingCode code = FindingCode.SAME_PAIR_TWICE;
    int sites = 0;
    int hits = 0;
    int alarms = 0;
    for (long number = seed; number < seed + studies; number++) {
      StudyPlan plan = HEALTHY.draw(number);
      List<List<RecordingResult>> twice =
          IntStream.range(0, plan.sites().size())
              .parallel()
              .mapToObj(site -> both.apply(plan, site))
              .filter(results -> results.stream().allMatch(PitfallValidation::hasPair))
              .toList();
      sites += twice.size();
      hits += (int) twice.stream().filter(results -> isInStudy(code, results)).count();
      alarms += isInStudy(code, twice.stream().map(results -> results.get(0)).toList()) ? 1 : 0;
    }
    return new PitfallScore(code, sites, hits, studies, alarms, 0, 0);
  }

  /** A site, and the same fibres a while later. */
  private static List<RecordingResult> again(StudyPlan plan, int site) {
    RandomStream later = RandomStream.of(plan.seed()).child("again").child(site);
    return List.of(
        analyse(plan.simulate(site)),
        analyse(new RecordingSimulator().simulate(plan.sites().get(site), later)));
  }

  /** A site, and its last two thirds under another name. */
  private static List<RecordingResult> twice(StudyPlan plan, int site) {
    SimulatedRecording recording = plan.simulate(site);
    SiteRequest whole = SiteRequest.whole("a.edf", "", recording.channels().get(0), "whole");
    SiteRequest part =
        new SiteRequest(
            "b.edf",
            "",
            whole.channel(),
            null,
            List.of(),
            "part",
            2.7,
            Double.POSITIVE_INFINITY,
            Activation.VOLUNTARY);
    return List.of(analyse(recording, whole), analyse(recording, part));
  }

  private static boolean hasPair(RecordingResult result) {
    List<MotorUnitResult> units = result.motorUnits();
    return units != null
        && units.stream()
            .flatMap(unit -> unit.pairs().stream())
            .anyMatch(pair -> pair.status() == PairStatus.MEASURED);
  }

  private static boolean isInStudy(FindingCode code, List<RecordingResult> recordings) {
    return new StudyJudge(LimitCatalogue.load(LimitSettings.defaults()), StudySettings.defaults())
            .summarise(
                new StudyDeclaration(
                    null,
                    null,
                    null,
                    Activation.VOLUNTARY,
                    StudyDeclaration.Origin.DECLARED,
                    null,
                    null),
                recordings)
            .findings()
            .stream()
            .anyMatch(finding -> finding.code() == code);
  }

  private static Stream<RecordingResult> results(StudyPlan plan) {
    return IntStream.range(0, plan.sites().size())
        .parallel()
        .mapToObj(site -> analyse(plan.simulate(site)))
        .toList()
        .stream();
  }

  private static List<RecordingResult> results(
      LongFunction<SimulatedRecording> site, long first, int sites) {
    return LongStream.range(first, first + sites)
        .parallel()
        .mapToObj(number -> analyse(site.apply(number)))
        .toList();
  }

  private static int raised(FindingCode code, List<RecordingResult> results) {
    return (int) results.stream().filter(result -> PitfallScore.isRaised(code, result)).count();
  }

  /** The result of a simulated site, needle and stimulus channel as it has them. */
  public static RecordingResult analyse(SimulatedRecording recording) {
    SiteRequest request =
        SiteRequest.whole(recording.truth().file(), "", recording.channels().get(0), "site");
    if (recording.truth().stimulation() != null) {
      request =
          new SiteRequest(
              request.file(),
              "",
              request.channel(),
              recording.channels().get(1),
              List.of(),
              request.site(),
              request.startS(),
              request.endS(),
              Activation.STIMULATED);
    }
    return analyse(recording, request);
  }

  private static RecordingResult analyse(SimulatedRecording recording, SiteRequest request) {
    try {
      return new SiteAnalyser(AnalysisSettings.defaultsFor("single-fibre"))
          .analyse(recording, request);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
