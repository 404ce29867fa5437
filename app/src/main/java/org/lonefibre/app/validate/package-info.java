/** The command {@code validate}: how well the chain measures what is known. */
@NullMarked
package org.lonefibre.app.validate;

import org.jspecify.annotations.NullMarked;
