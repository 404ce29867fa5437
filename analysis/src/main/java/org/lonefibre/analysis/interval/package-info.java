/** The interval, or latency, of every sweep, and the state of the sweep. */
@NullMarked
package org.lonefibre.analysis.interval;

import org.jspecify.annotations.NullMarked;
