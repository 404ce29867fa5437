/** The command {@code simulate}: recordings with known truth. */
@NullMarked
package org.lonefibre.app.simulate;

import org.jspecify.annotations.NullMarked;
