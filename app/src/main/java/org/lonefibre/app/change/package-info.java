/** The command {@code change}: two examinations of one subject. */
@NullMarked
package org.lonefibre.app.change;

import org.jspecify.annotations.NullMarked;
