/** Where a report goes that leaves this computer. */
@NullMarked
package org.lonefibre.app.sending;

import org.jspecify.annotations.NullMarked;
