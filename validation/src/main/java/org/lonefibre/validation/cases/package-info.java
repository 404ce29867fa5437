/**
 * Cases with known truth that are not drawn from a study: {@link
 * org.lonefibre.validation.cases.Pitfall} names the known pitfalls; the hidden {@code PitfallSite}
 * puts their sites together.
 */
@NullMarked
package org.lonefibre.validation.cases;

import org.jspecify.annotations.NullMarked;
