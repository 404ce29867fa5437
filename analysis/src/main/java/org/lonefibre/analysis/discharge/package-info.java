/** Being built. */
@NullMarked
package org.lonefibre.analysis.discharge;

import org.jspecify.annotations.NullMarked;
