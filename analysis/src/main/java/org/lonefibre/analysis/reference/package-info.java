/**
 * Limits, matched and compared.
 *
 * <ol>
 *   <li>{@link org.lonefibre.analysis.reference.LimitCatalogue} reads the limits carried with the
 *       program, each row with its source and how far it may be trusted ({@code LimitCells}), adds
 *       those of a {@link org.lonefibre.analysis.reference.LaboratoryLimits laboratory}, and finds
 *       the one that fits; {@link org.lonefibre.analysis.reference.MuscleNames} knows the short
 *       names of muscles.
 *   <li>{@link org.lonefibre.analysis.reference.LimitFile} reads a laboratory's own sets, {@link
 *       org.lonefibre.analysis.reference.WrittenTable} checks tables people write; a {@link
 *       org.lonefibre.analysis.reference.LimitConfirmation} turns on what was known from memory.
 *   <li>{@link org.lonefibre.analysis.reference.StudyJudge} sums up the sites of a study. {@code
 *       StudySignal} decides what each signal is to the statistics, once by the full grade and once
 *       by the trade's rules alone; {@code IndependentSignals} leaves out pairs that bring nothing
 *       new; {@code StudyTally} counts and compares.
 *   <li>{@link org.lonefibre.analysis.reference.Enough} says what can be said before a study is
 *       complete; {@code StudyAlternatives} counts it other ways.
 *   <li>{@link org.lonefibre.analysis.reference.BeforeAfter} compares two examinations of one
 *       subject.
 *   <li>{@code LimitFindings} and {@code StudyFindings} find the words: facts, never a diagnosis.
 * </ol>
 */
@NullMarked
package org.lonefibre.analysis.reference;

import org.jspecify.annotations.NullMarked;
