package org.lonefibre.app.practice;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.CancellationException;
import org.lonefibre.analysis.conditioning.Conditioner;
import org.lonefibre.analysis.settings.AnalysisSettings;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.model.simulation.SimulatedRecording;
import org.lonefibre.signal.random.RandomStream;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.validation.PitfallValidation;
import org.lonefibre.validation.cases.CaseLibrary;
import org.lonefibre.validation.cases.LibraryCase;
import org.lonefibre.validation.score.PitfallScore;
import org.lonefibre.workbench.declaration.Analyst;
import org.lonefibre.workbench.declaration.PitfallCase;
import org.lonefibre.workbench.declaration.PitfallCases;

/**
 * The case library of the validation, to be judged by a learner. Its order is mixed, so that a case
 * does not follow the same site with the pitfall in it.
 *
 * <p>Thread rule: safe.
 */
final class LibraryPractice implements PitfallCases {

  private static final long SEED = 5417;

  private static final List<Choice> CHOICES =
      List.of(
          choice(
              FindingCode.TWO_CLUSTERS,
              "two clusters",
              "intervals or latencies jump to and fro between two values: two bands in the plot of"
                  + " each sweep"),
          choice(
              FindingCode.TREND,
              "a slow trend",
              "the interval drifts from the first sweep to the last, while neighbours differ"
                  + " little"),
          choice(
              FindingCode.RATE_DEPENDENCE,
              "an interval that follows the discharge interval",
              "against the inter-discharge interval before it the interval lies along a slope"),
          choice(
              FindingCode.LOW_JITTER,
              "hardly any jitter",
              "all intervals lie within a few µs: two branches of one fibre, or a muscle fibre that"
                  + " the stimulus reached itself"),
          choice(
              FindingCode.TRIGGER_ABNORMAL,
              "an unsteady trigger",
              "every pair of the unit scatters, the followers together: the unsteady end-plate is"
                  + " that of the trigger"),
          choice(
              FindingCode.AXONAL_BLOCK,
              "block of a branch of the axon",
              "two potentials vanish in the same sweeps"),
          choice(
              FindingCode.NOT_PARALLEL,
              "a second fibre in a potential",
              "superimposed rising phases cross or fan out where one fibre leaves parallel lines"),
          choice(
              FindingCode.DOUBLETS,
              "doublets",
              "now and then the whole unit is seen once more within 2 to 12 ms, in the strip"),
          choice(
              FindingCode.SUBLIMINAL_STIMULATION,
              "a stimulus near threshold",
              "responses vanish in a run of stimuli, and those about it come late"),
          choice(
              FindingCode.COMMON_LATENCY,
              "an unsteady axon or stimulus",
              "the latencies of all end-plates move together"),
          new Choice(
              PitfallCase.NONE,
              "none of these",
              "each end-plate scatters, and blocks if it does, by itself"));

  private final List<LibraryCase> cases;

  LibraryPractice() {
    List<LibraryCase> mixed = new ArrayList<>(CaseLibrary.listAll());
    RandomStream stream = RandomStream.of(SEED).child("order");
    for (int i = mixed.size() - 1; i > 0; i--) {
      int other = stream.below(i + 1);
      LibraryCase kept = mixed.get(i);
      mixed.set(i, mixed.get(other));
      mixed.set(other, kept);
    }
    cases = List.copyOf(mixed);
  }

  private static Choice choice(FindingCode code, String words, String sign) {
    return new Choice(code(code), words, sign);
  }

  private static String code(FindingCode code) {
    return code.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  @Override
  public int size() {
    return cases.size();
  }

  @Override
  public String source() {
    return "The case library on which the program itself is tested: simulated sites with one known"
        + " pitfall, and the same sites without it.";
  }

  @Override
  public List<Choice> choices() {
    return CHOICES;
  }

  @Override
  public PitfallCase make(int number, Analyst.Watch watch) throws IOException {
    LibraryCase of = cases.get(number - 1);
    watch.step("A recording is simulated", 0, 2);
    SimulatedRecording recording = of.simulate();
    if (watch.isCancelled()) {
      throw new CancellationException("cancelled");
    }
    watch.step("The recording is measured", 1, 2);
    RecordingResult site = PitfallValidation.analyse(recording);
    return new PitfallCase(
        of.id(),
        site,
        Conditioner.forShowing(AnalysisSettings.defaultsFor("single-fibre").conditioning())
            .condition(recording, recording.channels().get(0)),
        of.truth(),
        code(of.finding()),
        of.raised(),
        PitfallScore.isRaised(of.finding(), site));
  }
}
