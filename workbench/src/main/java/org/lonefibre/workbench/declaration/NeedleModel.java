package org.lonefibre.workbench.declaration;

import java.io.IOException;
import java.util.List;

/**
 * The model of the needle as the workbench sees it. The program wires the one there is.
 *
 * <p>Thread rule: safe.
 */
public interface NeedleModel {

  /** A needle that can be asked for. */
  record Known(String key, String name) {}

  /** The needles it has geometry of. */
  List<Known> listNeedles();

  /**
   * What a needle hears and why, as a document lonefibre-needle-1 in UTF-8. Solving takes seconds
   * the first time; what is solved is kept.
   *
   * @param key of {@link #listNeedles}
   * @throws IllegalArgumentException if there is no such needle, or its field cannot be solved
   */
  byte[] describe(String key) throws IOException;
}
