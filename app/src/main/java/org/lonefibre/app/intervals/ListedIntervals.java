package org.lonefibre.app.intervals;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.jitter.JitterStatistic;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.Producer;
import org.lonefibre.analysis.study.Refusal;
import org.lonefibre.signal.recording.Finding;

/**
 * What plain lists of intervals allow, as {@code --json -} prints it.
 *
 * @param schema {@link #SCHEMA}
 * @param producedBy the program
 * @param activation as told
 * @param lists lists that were read, in the order given
 * @param refused files that were not, each with its reason
 */
public record ListedIntervals(
    String schema,
    Producer producedBy,
    Activation activation,
    List<Listed> lists,
    List<Refusal> refused) {

  /** Name of the document. */
  public static final String SCHEMA = "lonefibre-intervals-1";

  /** Copies its lists. */
  public ListedIntervals {
    lists = List.copyOf(lists);
    refused = List.copyOf(refused);
  }

  /** What a list cannot tell. */
  public enum NotJudged {
    /** Whether one fibre made each potential. */
    GRADE,
    /** The floor of timing, and with it the corrected jitter. */
    TIMING_FLOOR,
    /** Pauses and the order by rate, as there are no times. */
    TIMES,
    /** Blocking, as no line is marked. */
    BLOCKING
  }

  /**
   * One list.
   *
   * @param file its name
   * @param sha256 hash of its bytes
   * @param sweeps discharges or stimuli
   * @param presentSweeps those with an interval
   * @param blockedSweeps those marked as blocked
   * @param differences differences between neighbours
   * @param blockingPercent null if nothing is marked
   * @param meanIntervalUs mean; null if there is no jitter
   * @param meanConsecutiveDifferenceUs mean of the differences in their order
   * @param meanSortedDifferenceUs that by the interval before; null without times
   * @param jitterUs the trade's number, not corrected
   * @param jitterLowUs lower end of its 95 % interval
   * @param jitterHighUs upper end
   * @param jitterStatistic which of the two means it is
   * @param status measured, or unmeasurable
   * @param notJudged what a list cannot tell
   * @param findings what was noticed
   */
  public record Listed(
      String file,
      String sha256,
      int sweeps,
      int presentSweeps,
      int blockedSweeps,
      int differences,
      @Nullable Double blockingPercent,
      @Nullable Double meanIntervalUs,
      @Nullable Double meanConsecutiveDifferenceUs,
      @Nullable Double meanSortedDifferenceUs,
      @Nullable Double jitterUs,
      @Nullable Double jitterLowUs,
      @Nullable Double jitterHighUs,
      @Nullable JitterStatistic jitterStatistic,
      String status,
      List<NotJudged> notJudged,
      List<Finding> findings) {

    /** Copies its lists. */
    public Listed {
      notJudged = List.copyOf(notJudged);
      findings = List.copyOf(findings);
    }
  }
}
