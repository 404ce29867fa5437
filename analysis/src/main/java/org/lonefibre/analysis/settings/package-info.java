/**
 * Every setting of the chain in one place: {@link org.lonefibre.analysis.settings.AnalysisSettings}
 * gathers those of the steps, names the source of each, and hashes them for the result.
 */
@NullMarked
package org.lonefibre.analysis.settings;

import org.jspecify.annotations.NullMarked;
