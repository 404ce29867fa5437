package org.lonefibre.app.practice;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import org.lonefibre.analysis.grading.Grade;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.Decision;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.Side;
import org.lonefibre.analysis.study.SignalMeasures;
import org.lonefibre.analysis.study.StudySummary;
import org.lonefibre.analysis.study.Visit;
import org.lonefibre.app.recording.RecordingDoor;
import org.lonefibre.model.simulation.RecordingSimulator;
import org.lonefibre.model.simulation.SimulatedRecording;
import org.lonefibre.signal.random.RandomStream;
import org.lonefibre.workbench.declaration.Analyst;
import org.lonefibre.workbench.declaration.Declaration;
import org.lonefibre.workbench.declaration.Part;
import org.lonefibre.workbench.declaration.PitfallCases;
import org.lonefibre.workbench.declaration.PracticeCase;
import org.lonefibre.workbench.declaration.PracticeCases;
import org.lonefibre.workbench.declaration.Source;

/**
 * Cases made by simulation. A round holds each kind about equally often, in an order of its own; a
 * case is a function of its round and number alone.
 *
 * <p>Thread rule: safe.
 */
public final class SimulatedPractice implements PracticeCases {

  private static final int SIZE = 18;
  private static final long SEED = 8123;
  private static final int ATTEMPTS = 8;

  private final Analyst analyst;
  private final PitfallCases pitfalls = new LibraryPractice();

  /**
   * @param analyst the chain that measures the recordings
   */
  public SimulatedPractice(Analyst analyst) {
    this.analyst = analyst;
  }

  @Override
  public int size() {
    return SIZE;
  }

  @Override
  public String source() {
    return "Simulated recordings of nobody: fibres in homogeneous muscle before a point electrode,"
        + " with noise and distant units. What each fibre did is known.";
  }

  @Override
  public PitfallCases pitfalls() {
    return pitfalls;
  }

  /** A source has no other content than its name: the files are made here. */
  private static Declaration declaration() {
    return new Declaration(
        "PRACTICE",
        40.0,
        new Visit(null, null, null, null, null),
        List.of(
            new Part(
                "extensor digitorum",
                Side.RIGHT,
                "single-fibre",
                Activation.VOLUNTARY,
                null,
                List.of(
                    new Source("", PracticeSite.FILE + ".edf", null, null, null, null, null)))));
  }

  private static PracticeKind kind(long round, int number) {
    List<PracticeKind> order = new ArrayList<>();
    for (int i = 0; i < SIZE; i++) {
      order.add(PracticeKind.values()[i % PracticeKind.values().length]);
    }
    RandomStream stream = RandomStream.of(SEED).child("order").child(round);
    for (int i = SIZE - 1; i > 0; i--) {
      int other = stream.below(i + 1);
      PracticeKind kept = order.get(i);
      order.set(i, order.get(other));
      order.set(other, kept);
    }
    return order.get(number - 1);
  }

  @Override
  public PracticeCase make(long round, int number, Analyst.Watch watch) throws IOException {
    PracticeKind kind = kind(round, number);
    Path folder = Files.createTempDirectory("lonefibre-practice");
    Path file = folder.resolve(PracticeSite.FILE + ".edf");
    try {
      for (int attempt = 0; attempt < ATTEMPTS; attempt++) {
        RandomStream stream =
            RandomStream.of(SEED).child("case").child(round).child(number).child(attempt);
        watch.step("A recording is simulated", 0, 1);
        if (watch.isCancelled()) {
          throw new CancellationException("cancelled");
        }
        PracticeSite site = new PracticeSite(stream.child("site"));
        kind.fill(site);
        SimulatedRecording recording =
            new RecordingSimulator().simulate(site.scenario(), stream.child("recording"));
        Files.deleteIfExists(file);
        RecordingDoor.write(recording, "PRACTICE", file);
        Examination measured = analyst.analyse(declaration(), source -> file, watch, null);
        Optional<PracticeCase> found = new TruthOfCase(kind, recording.truth()).in(measured);
        if (found.isPresent()) {
          return found.get();
        }
      }
    } finally {
      Files.deleteIfExists(file);
      Files.deleteIfExists(folder);
    }
    throw new IOException("no recording of case " + number + " could be followed");
  }

  @Override
  public StudySummary study(List<Taken> taken) throws IOException {
    List<RecordingResult> sites = new ArrayList<>();
    for (Taken one : taken) {
      PracticeCase of = one.of();
      List<Decision> decisions = new ArrayList<>();
      decisions.add(
          new Decision.Grading(
              of.potential().id(),
              one.isAccepted() ? Grade.SINGLE_FIBRE : Grade.COMPOSITE,
              "practice"));
      for (SignalMeasures signal : of.site().signals()) {
        if (!signal.id().equals(of.pair().id())) {
          decisions.add(
              new Decision.OfSignal(
                  signal.id(), Decision.Standing.EXCLUDED, "not what was to be judged"));
        }
      }
      sites.add(analyst.revise(of.examination(), 0, of.site(), decisions));
    }
    return analyst.judge(declaration(), taken.get(0).of().examination(), 0, sites);
  }
}
