package org.lonefibre.analysis.reference;

import java.util.List;
import org.lonefibre.signal.recording.Finding;

/** The one limit set that fits a study, or why there is none. */
sealed interface LimitMatch permits LimitMatch.Matched, LimitMatch.Unmatched {

  /** What to know about the match. */
  List<Finding> findings();

  /**
   * One set fits.
   *
   * @param row the cell that holds
   * @param findings what to know about it
   */
  record Matched(LimitRow row, List<Finding> findings) implements LimitMatch {

    /** Copies the findings. */
    public Matched {
      findings = List.copyOf(findings);
    }
  }

  /**
   * Nothing is compared.
   *
   * @param findings why
   */
  record Unmatched(List<Finding> findings) implements LimitMatch {

    /** Copies the findings. */
    public Unmatched {
      findings = List.copyOf(findings);
    }
  }
}
