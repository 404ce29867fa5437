package org.lonefibre.analysis;

import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.grading.Grade;
import org.lonefibre.analysis.study.Decision;
import org.lonefibre.analysis.study.Decision.Mark;
import org.lonefibre.analysis.study.Decision.Standing;
import org.lonefibre.analysis.study.PotentialResult;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;

/** The signals of a unit, or of the stimuli, while decisions are taken over one by one. */
abstract class RevisedSignals {

  private final Map<String, PotentialResult> potentials = new LinkedHashMap<>();
  private final Map<String, Decision> excludedPotentials = new HashMap<>();
  private final Map<String, Decision> excludedSignals = new HashMap<>();
  private final Map<String, Decision.Grading> regraded = new HashMap<>();

  RevisedSignals(List<PotentialResult> potentials) {
    potentials.forEach(potential -> this.potentials.put(potential.id(), potential));
  }

  /** The sweeps of each signal by its identity. */
  abstract Map<String, RevisedSweeps> sweeps();

  /** Takes another trigger; whether there is such a one here. */
  abstract boolean trigger(Decision.Trigger decision);

  /** Takes over a decision; whether it is about anything here. */
  boolean takeOver(Decision decision) {
    if (decision instanceof Decision.Sweeps of) {
      RevisedSweeps sweeps = sweeps().get(of.signal());
      return sweeps != null && sweeps.mark(of.firstSweep(), of.lastSweep(), of.mark());
    }
    if (decision instanceof Decision.Stretch of) {
      Mark mark = of.standing() == Standing.EXCLUDED ? Mark.EXCLUDED : Mark.AUTOMATIC;
      sweeps().values().forEach(sweeps -> sweeps.markTimes(of.startS(), of.endS(), mark));
      return true;
    }
    if (decision instanceof Decision.OfPotential of) {
      return potentials.containsKey(of.potential())
          && keep(excludedPotentials, of.potential(), of.standing(), of);
    }
    if (decision instanceof Decision.OfSignal of) {
      return sweeps().containsKey(of.signal())
          && keep(excludedSignals, of.signal(), of.standing(), of);
    }
    if (decision instanceof Decision.Grading of) {
      if (!potentials.containsKey(of.potential())) {
        return false;
      }
      regraded.put(of.potential(), of);
      return true;
    }
    // One that needs the samples is none of this revision's: whoever measured took it over.
    return decision instanceof Decision.Trigger of && trigger(of);
  }

  private static boolean keep(
      Map<String, Decision> excluded, String id, Standing standing, Decision decision) {
    if (standing == Standing.EXCLUDED) {
      excluded.put(id, decision);
    } else {
      excluded.remove(id);
    }
    return true;
  }

  /** The potentials with the grades in force. */
  List<PotentialResult> potentials() {
    return potentials.values().stream().map(this::regraded).toList();
  }

  private PotentialResult regraded(PotentialResult of) {
    Decision.Grading decision = regraded.get(of.id());
    if (decision == null) {
      return of;
    }
    List<Finding> findings = new java.util.ArrayList<>(of.findings());
    findings.add(
        Finding.note(
            FindingCode.EXCLUDED_BY_PERSON,
            String.format(
                Locale.ROOT,
                "A person graded it %s in place of %s: %s",
                words(decision.grade()),
                words(of.grade()),
                decision.reason()),
            Evidence.NONE));
    return new PotentialResult(
        of.id(),
        of.offsetMs(),
        of.amplitudeUv(),
        of.riseTimeUs(),
        of.snr(),
        of.arrivalErrorUs(),
        of.presentSweeps(),
        decision.grade(),
        decision.grade(),
        decision.grade() == Grade.UNGRADED
            ? null
            : of.singleFibreProbability() == null
                ? Double.valueOf(0.5)
                : of.singleFibreProbability(),
        findings,
        of.drawing());
  }

  /** The automatic one, which stays evidence; where there is none, the person's word alone. */
  private static @Nullable Double probability(PotentialResult of, Grade grade) {
    if (of.singleFibreProbability() != null) {
      return grade == Grade.UNGRADED ? null : of.singleFibreProbability();
    }
    return switch (grade) {
      case SINGLE_FIBRE -> Double.valueOf(1);
      case DOUBTFUL -> Double.valueOf(0.5);
      case COMPOSITE -> Double.valueOf(0);
      case UNGRADED -> null;
    };
  }

  private static String words(Grade grade) {
    return grade.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** What leaves a signal out: a person's word, or a composite potential; null if nothing does. */
  @Nullable Finding exclusion(String signal, List<String> potentialIds) {
    Decision decision = excludedSignals.get(signal);
    String of = "it";
    for (String id : potentialIds) {
      if (decision == null && excludedPotentials.containsKey(id)) {
        decision = excludedPotentials.get(id);
        of = "potential " + id;
      }
    }
    if (decision != null) {
      return Finding.exclusion(
          FindingCode.EXCLUDED_BY_PERSON,
          "A person excluded " + of + ": " + decision.reason(),
          Evidence.NONE);
    }
    List<String> composite =
        potentialIds.stream()
            .filter(id -> potentials.containsKey(id) && gradeOf(id) == Grade.COMPOSITE)
            .toList();
    return composite.isEmpty()
        ? null
        : Finding.exclusion(
            FindingCode.COMPOSITE,
            "More than one fibre made potential "
                + String.join(" and ", composite)
                + ": left out of the statistics.",
            Evidence.NONE);
  }

  private Grade gradeOf(String id) {
    Decision.Grading decision = regraded.get(id);
    PotentialResult potential = potentials.get(id);
    return decision != null
        ? decision.grade()
        : potential == null ? Grade.UNGRADED : potential.grade();
  }

  /** A note of the sweeps of a signal that a person marked; empty if there are none. */
  static List<Finding> noteOf(RevisedSweeps sweeps) {
    List<Integer> marked = sweeps.listMarked();
    return marked.isEmpty()
        ? List.of()
        : List.of(
            Finding.note(
                FindingCode.EXCLUDED_BY_PERSON,
                marked.size()
                    + (marked.size() == 1 ? " sweep was" : " sweeps were")
                    + " marked by a person.",
                Evidence.ofSweeps(marked)));
  }
}
