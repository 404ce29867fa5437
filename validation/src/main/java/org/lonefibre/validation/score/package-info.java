/**
 * Truth beside result: {@link org.lonefibre.validation.score.SiteScorer} counts, {@link
 * org.lonefibre.validation.score.Score} adds up.
 */
@NullMarked
package org.lonefibre.validation.score;

import org.jspecify.annotations.NullMarked;
