/**
 * The command {@code validate}: {@link org.lonefibre.app.validate.ValidateCommand} scores the chain
 * on cases with known truth; the hidden {@code ScoreTable} shows the scores.
 */
@NullMarked
package org.lonefibre.app.validate;

import org.jspecify.annotations.NullMarked;
