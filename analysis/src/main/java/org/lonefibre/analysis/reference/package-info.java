/**
 * Published limits, matched and compared.
 *
 * <ol>
 *   <li>{@link org.lonefibre.analysis.reference.LimitCatalogue} reads the limits carried with the
 *       program, each row with its source and how far it may be trusted, and finds the one that
 *       fits; {@link org.lonefibre.analysis.reference.MuscleNames} knows the short names of
 *       muscles.
 *   <li>{@link org.lonefibre.analysis.reference.StudyJudge} sums up the sites of a study. {@code
 *       StudySignal} decides what each signal is to the statistics, once by the full grade and once
 *       by the trade's rules alone; {@code IndependentSignals} leaves out pairs that bring nothing
 *       new; {@code StudyTally} counts and compares.
 *   <li>{@code LimitFindings} and {@code StudyFindings} find the words: facts, never a diagnosis.
 * </ol>
 */
@NullMarked
package org.lonefibre.analysis.reference;

import org.jspecify.annotations.NullMarked;
