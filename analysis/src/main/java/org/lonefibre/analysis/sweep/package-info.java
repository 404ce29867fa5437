/**
 * Sweeps that begin at a stimulus: {@link org.lonefibre.analysis.sweep.StimulusFinder} finds the
 * stimuli and how well their times are known.
 */
@NullMarked
package org.lonefibre.analysis.sweep;

import org.jspecify.annotations.NullMarked;
