/** From intervals to jitter and blocking, with honest error. */
@NullMarked
package org.lonefibre.analysis.jitter;

import org.jspecify.annotations.NullMarked;
