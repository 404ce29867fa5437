/** Needles: what they hear of fibres near and far, and why. */
@NullMarked
package org.lonefibre.workbench.needle;

import org.jspecify.annotations.NullMarked;
