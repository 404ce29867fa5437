/** Whatever a laboratory has, read and written. */
@NullMarked
package org.lonefibre.formats;

import org.jspecify.annotations.NullMarked;
