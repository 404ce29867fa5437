/** Checks of the store. */
@NullMarked
package org.lonefibre.store;

import org.jspecify.annotations.NullMarked;
