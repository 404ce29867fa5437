/** A laboratory's own limits, confirmations and choices, as recorded decisions. */
@NullMarked
package org.lonefibre.store.limits;

import org.jspecify.annotations.NullMarked;
