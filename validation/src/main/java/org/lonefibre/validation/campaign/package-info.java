/** Simulated studies in number: how often what is said before the end is wrong. */
@NullMarked
package org.lonefibre.validation.campaign;

import org.jspecify.annotations.NullMarked;
