/**
 * From the samples of a file to a signal that can be measured, and what is wrong with it.
 *
 * <ol>
 *   <li>{@link org.lonefibre.analysis.conditioning.Conditioner} takes a site of a recording and
 *       gives a {@link org.lonefibre.analysis.conditioning.ConditionedSignal}; {@link
 *       org.lonefibre.analysis.conditioning.ConditioningSettings} says how, {@link
 *       org.lonefibre.analysis.conditioning.ConditioningRecord} what was done.
 *   <li>{@code RawSource} gives the samples of the file, with garbage at the start and missing
 *       samples replaced.
 *   <li>{@code FilteredBlocks} filters piece by piece, as far beyond each piece as the filter
 *       remembers, and keeps the pieces used last: a long recording never lies in memory whole.
 *   <li>{@code NoiseEstimate} finds the spread of the signal outside potentials.
 *   <li>{@code SiteScan} looks at every raw sample once, for clipping, constant stretches,
 *       wrap-around, and ({@code SlowSignal}) for mains and drift.
 *   <li>{@code SoundTraces} looks for what recorders of sound leave: lossy coding, automatic gain.
 *   <li>{@code Prefilter} reads what the file was filtered with; {@code ConditioningFindings} puts
 *       all of it into words.
 * </ol>
 */
@NullMarked
package org.lonefibre.analysis.conditioning;

import org.jspecify.annotations.NullMarked;
