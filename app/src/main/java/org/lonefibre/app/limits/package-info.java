/**
 * The command {@code limits}: the sets there are, what each would say of a study, and what a
 * laboratory adds, confirms and picks.
 */
@NullMarked
package org.lonefibre.app.limits;

import org.jspecify.annotations.NullMarked;
