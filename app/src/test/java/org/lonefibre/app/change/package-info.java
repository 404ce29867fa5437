/** Two examinations of one subject through the command. */
@NullMarked
package org.lonefibre.app.change;

import org.jspecify.annotations.NullMarked;
