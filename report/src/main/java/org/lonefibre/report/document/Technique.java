package org.lonefibre.report.document;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.conditioning.ConditioningRecord;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.Study;
import org.lonefibre.analysis.study.StudySummary;
import org.lonefibre.analysis.study.Visit;

/** How a study was recorded and measured; what nobody declared is said to be not recorded. */
final class Technique {

  private Technique() {}

  static List<Fact> of(Study study, Visit visit) {
    List<RecordingResult> recordings = study.recordings();
    StudySummary summary = study.summary();
    Double temperature = visit.temperatureDegC();
    List<Fact> facts = new ArrayList<>();
    facts.add(Fact.of("Muscle", Words.muscle(study.muscle()) + ", " + Words.side(study.side())));
    facts.add(Fact.of("Needle", Words.needle(study.needle())));
    facts.add(
        Fact.of(
            "Activation",
            Words.activation(study.activation())
                + (summary.meanDischargeRateHz() == null
                    ? ""
                    : ", mean rate " + Rounded.rate(summary.meanDischargeRateHz()))));
    facts.add(Fact.of("Sites", sites(study)));
    facts.add(Fact.of("Sampling", each(recordings, r -> Rounded.frequency(r.samplingRateHz()))));
    facts.add(Fact.of("Filter for times", each(recordings, r -> filter(r.conditioning()))));
    facts.add(Fact.of("Filtered before", each(recordings, r -> prefilter(r.conditioning()))));
    facts.add(Fact.of("Noise", range(recordings)));
    facts.add(
        Fact.of(
            "Skin temperature",
            temperature == null ? Words.NOT_RECORDED : Rounded.decimals(temperature, 1) + " °C"));
    facts.add(Fact.of("Medication", Words.declared(visit.medication())));
    facts.add(Fact.of("Note", Words.declared(visit.note())));
    return facts;
  }

  private static String sites(Study study) {
    double seconds = study.recordings().stream().mapToDouble(RecordingResult::durationS).sum();
    return Words.count(study.recordings().size(), "site")
        + ", "
        + Rounded.duration(seconds)
        + " of signal"
        + (study.activation() == Activation.STIMULATED ? "" : ", " + units(study));
  }

  private static String units(Study study) {
    int units =
        study.recordings().stream()
            .map(RecordingResult::motorUnits)
            .mapToInt(list -> list == null ? 0 : list.size())
            .sum();
    return Words.count(units, "motor unit");
  }

  private static String filter(@Nullable ConditioningRecord conditioning) {
    if (conditioning == null) {
      return "none, the signal could not be used";
    }
    Double lowPass = conditioning.lowPassHz();
    Double mains = conditioning.mainsRemovedHz();
    return "high-pass "
        + Rounded.frequency(conditioning.highPassHz())
        + (lowPass == null ? ", no low-pass" : ", low-pass " + Rounded.frequency(lowPass))
        + ", order "
        + conditioning.order()
        + ", "
        + conditioning.phase()
        + " phase; acceptance judged on a "
        + conditioning.acceptancePhase()
        + " twin"
        + (mains == null ? "" : "; mains " + Rounded.frequency(mains) + " removed on request");
  }

  private static String prefilter(@Nullable ConditioningRecord conditioning) {
    return conditioning == null || conditioning.prefilter().isBlank()
        ? "the file does not say"
        : conditioning.prefilter();
  }

  private static String range(List<RecordingResult> recordings) {
    double[] values =
        recordings.stream()
            .map(RecordingResult::noiseUv)
            .flatMap(noise -> noise == null ? Stream.empty() : Stream.of(noise))
            .mapToDouble(Double::doubleValue)
            .sorted()
            .toArray();
    if (values.length == 0) {
      return "uncalibrated";
    }
    String low = Rounded.voltage(values[0]);
    String high = Rounded.voltage(values[values.length - 1]);
    return low.equals(high) ? low : low + " to " + high;
  }

  /** One text if all recordings agree, else all of them. */
  private static String each(
      List<RecordingResult> recordings, Function<RecordingResult, String> text) {
    Set<String> texts = new LinkedHashSet<>();
    recordings.forEach(recording -> texts.add(text.apply(recording)));
    return texts.isEmpty() ? "no recording" : String.join("; or ", texts);
  }
}
