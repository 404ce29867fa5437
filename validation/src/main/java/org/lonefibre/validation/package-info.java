/**
 * Scores the measuring chain against known truth; sees the chain and the model, so that neither has
 * to see the other.
 */
@NullMarked
package org.lonefibre.validation;

import org.jspecify.annotations.NullMarked;
