/** The command {@code demo}: the demo study from nothing to its report. */
@NullMarked
package org.lonefibre.app.demo;

import org.jspecify.annotations.NullMarked;
