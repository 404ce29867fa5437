package org.lonefibre.analysis.reference;

import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Activation;

/**
 * The set a laboratory picked, once, where several fit.
 *
 * @param muscle muscle key
 * @param needle needle key
 * @param activation voluntary or stimulated
 * @param set identity of the set
 */
public record LimitChoice(String muscle, String needle, Activation activation, String set) {

  boolean holdsFor(String muscleKey, @Nullable String needleKey, Activation how) {
    return muscle.equals(muscleKey) && needle.equals(needleKey) && activation == how;
  }
}
