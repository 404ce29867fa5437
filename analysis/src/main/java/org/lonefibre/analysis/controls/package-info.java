/**
 * Limits of a laboratory's own, from its healthy volunteers.
 *
 * <ol>
 *   <li>{@link org.lonefibre.analysis.controls.ControlFile} reads a line a signal; a subject twice
 *       is refused.
 *   <li>{@link org.lonefibre.analysis.controls.ControlLimits} reduces each subject to a centre and
 *       to a ranked value (the 18th of 20, the 27th of 30), and takes the upper limit of both over
 *       the subjects: {@code UpperLimit} holds the methods, {@code RobustLimit} the biweight one,
 *       {@code Resampling} the bootstrap intervals, {@code QuantileLine} the dependence on age.
 *   <li>{@link org.lonefibre.analysis.controls.LimitTransfer} asks whether 20 controls bear out a
 *       limit of others; {@link org.lonefibre.analysis.controls.ReferralPlateau} extrapolates from
 *       consecutive referrals.
 * </ol>
 */
@NullMarked
package org.lonefibre.analysis.controls;

import org.jspecify.annotations.NullMarked;
