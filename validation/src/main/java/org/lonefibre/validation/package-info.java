/** Scores the measuring chain against known truth. */
@NullMarked
package org.lonefibre.validation;

import org.jspecify.annotations.NullMarked;
