package org.lonefibre.report.document;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.PotentialResult;
import org.lonefibre.analysis.study.SignalMeasures;
import org.lonefibre.analysis.study.SweepDrawing;

/**
 * One pair or end-plate with all that the report shows of it.
 *
 * @param words the language it is written in
 * @param number its number in the report, from 1
 * @param label site and, where a site has several signals, the identity of this one
 * @param kind pair or end-plate
 * @param standing how it stands in the statistics
 * @param standingText the same in words, with the limit it was compared with
 * @param measures counts and jitter
 * @param jitter the jitter quoted as it is printed, with as many digits as show the side of the
 *     limit
 * @param meanUs mean interval or latency; null if unmeasurable
 * @param sortedDifferenceUs mean sorted-data difference; null if it has none
 * @param triggerAbsentSweeps sweeps without the trigger, 0 for end-plates
 * @param firing rate of the motor unit or of the stimuli, in words
 * @param potentials trigger and paired potential, or the one of the end-plate; those that are known
 * @param potentialGrades the grade of each potential in words
 * @param drawing sweeps superimposed; null if not kept
 * @param points every sweep in order of time
 * @param endPlateJitter the jitter of single end-plates of its unit, in words; empty if there is
 *     none
 * @param findings what to know about it and its potentials
 */
public record SignalEntry(
    Words words,
    int number,
    String label,
    Kind kind,
    Standing standing,
    String standingText,
    SignalMeasures measures,
    String jitter,
    @Nullable Double meanUs,
    @Nullable Double sortedDifferenceUs,
    int triggerAbsentSweeps,
    String firing,
    List<PotentialResult> potentials,
    List<String> potentialGrades,
    @Nullable SweepDrawing drawing,
    List<SweepPoint> points,
    String endPlateJitter,
    List<FindingLine> findings) {

  /** What the signal is. */
  public enum Kind {
    /** Two potentials of one motor unit. */
    PAIR,
    /** One potential after a stimulus. */
    END_PLATE
  }

  /** How the signal stands. Each is drawn with its own mark. */
  public enum Standing {
    /** In the statistics, no sweep blocked. */
    MEASURED,
    /** In the statistics, some sweeps blocked. */
    BLOCKING,
    /** Left out of the statistics, its numbers kept. */
    EXCLUDED,
    /** Without a number. */
    UNMEASURABLE
  }

  /** Copies the lists. */
  public SignalEntry {
    potentials = List.copyOf(potentials);
    potentialGrades = List.copyOf(potentialGrades);
    points = List.copyOf(points);
    findings = List.copyOf(findings);
  }

  /** The word for its mean: interval or latency. */
  public String valueName() {
    return words.say(kind == Kind.PAIR ? "interval" : "latency");
  }

  /** The corrected jitter with its 95 % interval, without unit. */
  public String corrected() {
    return measures.correctedJitterUs() == null
        ? Rounded.NONE
        : Rounded.jitter(measures.correctedJitterUs())
            + " ("
            + Rounded.jitter(measures.correctedJitterLowUs())
            + "–"
            + Rounded.jitter(measures.correctedJitterHighUs())
            + ")";
  }

  /** Whether it enters the statistics. */
  public boolean inStatistics() {
    return standing == Standing.MEASURED || standing == Standing.BLOCKING;
  }
}
