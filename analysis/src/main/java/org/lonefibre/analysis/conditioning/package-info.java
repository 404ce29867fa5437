/** Being built. */
@NullMarked
package org.lonefibre.analysis.conditioning;

import org.jspecify.annotations.NullMarked;
