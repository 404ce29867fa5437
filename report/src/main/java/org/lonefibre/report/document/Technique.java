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
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.Study;
import org.lonefibre.analysis.study.StudySummary;
import org.lonefibre.analysis.study.Visit;

/** How a study was recorded and measured; what nobody declared is said to be not recorded. */
final class Technique {

  private Technique() {}

  static List<Fact> of(Study study, Examination examination, Words words) {
    Visit visit = examination.visit();
    List<RecordingResult> recordings = study.recordings();
    StudySummary summary = study.summary();
    Double temperature = visit.temperatureDegC();
    List<Fact> facts = new ArrayList<>();
    facts.add(
        Fact.of(
            words.say("technique.muscle"),
            words.muscle(study.muscle()) + ", " + words.side(study.side())));
    facts.add(Fact.of(words.say("technique.needle"), words.needle(study.needle())));
    facts.add(
        Fact.of(
            words.say("technique.activation"),
            words.activation(study.activation())
                + (summary.meanDischargeRateHz() == null
                    ? ""
                    : words.say("mean-rate", Rounded.rate(summary.meanDischargeRateHz())))));
    facts.add(Fact.of(words.say("technique.sites"), sites(study, words)));
    facts.add(
        Fact.of(
            words.say("technique.sampling"),
            each(words, recordings, r -> Rounded.frequency(r.samplingRateHz()))));
    facts.add(
        Fact.of(
            words.say("technique.filter"),
            each(words, recordings, r -> filter(r.conditioning(), words))));
    facts.add(
        Fact.of(
            words.say("technique.filtered-before"),
            each(words, recordings, r -> prefilter(r.conditioning(), words))));
    facts.add(
        Fact.of(words.say("technique.interpolation"), words.say("technique.interpolation.text")));
    facts.add(Fact.of(words.say("technique.noise"), range(recordings, words)));
    facts.add(Fact.of(words.say("technique.chain"), ChainFacts.line(examination.chain(), words)));
    facts.add(
        Fact.of(
            words.say("technique.temperature"),
            temperature == null ? words.notRecorded() : Rounded.decimals(temperature, 1) + " °C"));
    facts.add(Fact.of(words.say("technique.medication"), words.declared(visit.medication())));
    facts.add(Fact.of(words.say("technique.note"), words.declared(visit.note())));
    return facts;
  }

  private static String sites(Study study, Words words) {
    double seconds = study.recordings().stream().mapToDouble(RecordingResult::durationS).sum();
    return words.say(
            "sites-and-time",
            words.count(study.recordings().size(), "site"),
            Rounded.duration(seconds))
        + (study.activation() == Activation.STIMULATED
            ? ""
            : ", " + words.count(units(study), "motor-unit"));
  }

  private static int units(Study study) {
    return study.recordings().stream()
        .map(RecordingResult::motorUnits)
        .mapToInt(list -> list == null ? 0 : list.size())
        .sum();
  }

  private static String filter(@Nullable ConditioningRecord conditioning, Words words) {
    if (conditioning == null) {
      return words.say("filter.none");
    }
    Double lowPass = conditioning.lowPassHz();
    Double mains = conditioning.mainsRemovedHz();
    return words.say(
            "filter",
            Rounded.frequency(conditioning.highPassHz()),
            lowPass == null
                ? words.say("filter.no-low-pass")
                : words.say("filter.low-pass", Rounded.frequency(lowPass)),
            conditioning.order(),
            words.phase(conditioning.phase()),
            words.phase(conditioning.acceptancePhase()))
        + (mains == null ? "" : words.say("filter.mains", Rounded.frequency(mains)));
  }

  private static String prefilter(@Nullable ConditioningRecord conditioning, Words words) {
    return conditioning == null || conditioning.prefilter().isBlank()
        ? words.say("prefilter.unknown")
        : conditioning.prefilter();
  }

  private static String range(List<RecordingResult> recordings, Words words) {
    double[] values =
        recordings.stream()
            .map(RecordingResult::noiseUv)
            .flatMap(noise -> noise == null ? Stream.empty() : Stream.of(noise))
            .mapToDouble(Double::doubleValue)
            .sorted()
            .toArray();
    if (values.length == 0) {
      return words.say("uncalibrated");
    }
    String low = Rounded.voltage(values[0]);
    String high = Rounded.voltage(values[values.length - 1]);
    return low.equals(high) ? low : words.say("from-to", low, high);
  }

  /** One text if all recordings agree, else all of them. */
  private static String each(
      Words words, List<RecordingResult> recordings, Function<RecordingResult, String> text) {
    Set<String> texts = new LinkedHashSet<>();
    recordings.forEach(recording -> texts.add(text.apply(recording)));
    return texts.isEmpty() ? words.say("no-recording") : String.join(words.say("or"), texts);
  }
}
