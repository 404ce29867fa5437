/** Commands are verbs. */
@NullMarked
package org.lonefibre.app;

import org.jspecify.annotations.NullMarked;
