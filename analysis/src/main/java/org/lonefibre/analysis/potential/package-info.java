/** Being built. */
@NullMarked
package org.lonefibre.analysis.potential;

import org.jspecify.annotations.NullMarked;
