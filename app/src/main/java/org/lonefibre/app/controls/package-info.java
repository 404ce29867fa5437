/** The command {@code controls}: limits of a laboratory's own. */
@NullMarked
package org.lonefibre.app.controls;

import org.jspecify.annotations.NullMarked;
