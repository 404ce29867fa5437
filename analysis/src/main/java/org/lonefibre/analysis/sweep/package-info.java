/** Being built. */
@NullMarked
package org.lonefibre.analysis.sweep;

import org.jspecify.annotations.NullMarked;
