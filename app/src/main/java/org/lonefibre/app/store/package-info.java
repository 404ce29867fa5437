/** {@code store}: the kept studies on the command line. */
@NullMarked
package org.lonefibre.app.store;

import org.jspecify.annotations.NullMarked;
