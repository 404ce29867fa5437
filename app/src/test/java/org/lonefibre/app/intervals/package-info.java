@NullMarked
package org.lonefibre.app.intervals;

import org.jspecify.annotations.NullMarked;
