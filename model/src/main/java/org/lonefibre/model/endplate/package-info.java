/**
 * From the nerve's impulse to the fibre's: a delay that differs from discharge to discharge, and
 * sometimes none at all.
 *
 * <ol>
 *   <li>{@link org.lonefibre.model.endplate.EndPlateSettings} states the law: {@link
 *       org.lonefibre.model.endplate.DelayLaw}, blocking, two delay states, trend, and dependence
 *       on the preceding inter-discharge interval.
 *   <li>{@link org.lonefibre.model.endplate.EndPlate} draws from it, one {@link
 *       org.lonefibre.model.endplate.Transmissions} for a train of discharges. Delays are centred:
 *       the law's mean is taken off, so that a place in time can be stated elsewhere.
 *   <li>{@link org.lonefibre.model.endplate.ExpectedJitter} gives the mean absolute difference of
 *       neighbouring intervals that the law must give, from the characteristic functions of the
 *       hidden {@code DelayLaws}; no drawing is involved.
 *   <li>The hidden {@code ThresholdLaw} is the end-plate potential that rises to a threshold.
 * </ol>
 */
@NullMarked
package org.lonefibre.model.endplate;

import org.jspecify.annotations.NullMarked;
