package org.lonefibre.workbench.declaration;

import java.io.IOException;
import java.util.List;
import org.lonefibre.analysis.study.StudySummary;

/**
 * Recordings with known truth to be judged, as the workbench sees them. The program wires the ones
 * there are.
 *
 * <p>Thread rule: safe.
 */
public interface PracticeCases {

  /** A case and whether its potential is taken as that of one fibre. */
  record Taken(PracticeCase of, boolean isAccepted) {}

  /** Cases in a round. */
  int size();

  /** Where they come from, a sentence for the person. */
  String source();

  /**
   * Makes a case; the same round and number give the same case.
   *
   * @param round from 1
   * @param number from 1 to {@link #size}
   * @param watch told of each step, and asked whether the case is still wanted
   */
  PracticeCase make(long round, int number, Analyst.Watch watch) throws IOException;

  /** Recordings with known pitfalls, beside these. */
  PitfallCases pitfalls();

  /** The study of some cases, if exactly those accepted were counted. */
  StudySummary study(List<Taken> taken) throws IOException;
}
