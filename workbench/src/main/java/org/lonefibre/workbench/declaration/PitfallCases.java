package org.lonefibre.workbench.declaration;

import java.io.IOException;
import java.util.List;

/**
 * A library of recordings with known pitfalls and the same without them, the same for everyone.
 *
 * <p>Thread rule: safe.
 */
public interface PitfallCases {

  /**
   * What may be said of a case.
   *
   * @param code a finding, or {@link PitfallCase#NONE}
   * @param words what it is, in a few words
   * @param sign how it shows, a sentence
   */
  record Choice(String code, String words, String sign) {}

  /** Cases in the library. */
  int size();

  /** Where they come from, a sentence for the person. */
  String source();

  /** All that may be said, the one that is none of the pitfalls last. */
  List<Choice> choices();

  /**
   * Makes a case; the same number gives the same case.
   *
   * @param number from 1 to {@link #size}
   * @param watch told of each step, and asked whether the case is still wanted
   */
  PitfallCase make(int number, Analyst.Watch watch) throws IOException;
}
