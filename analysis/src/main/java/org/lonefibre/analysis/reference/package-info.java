/** Published limits, matched and compared. */
@NullMarked
package org.lonefibre.analysis.reference;

import org.jspecify.annotations.NullMarked;
