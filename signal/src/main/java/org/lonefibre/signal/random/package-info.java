/**
 * Chance that is the same on every machine.
 *
 * <ol>
 *   <li>{@link org.lonefibre.signal.random.RandomStream} is a stream of random numbers named by a
 *       seed and a path of names. A child depends on the name of its parent and on nothing its
 *       parent has drawn, so adding one stream changes no other.
 *   <li>The hidden {@code Ziggurat} turns bits into Gaussian deviates; it and every law here use
 *       {@link java.lang.StrictMath} wherever processors could differ.
 * </ol>
 */
@NullMarked
package org.lonefibre.signal.random;

import org.jspecify.annotations.NullMarked;
