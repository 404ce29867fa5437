/**
 * Files of bare numbers: {@link org.lonefibre.formats.raw.RawReader} reads them by position with
 * the layout that a person tells; {@code RawSource} turns bytes into numbers.
 */
@NullMarked
package org.lonefibre.formats.raw;

import org.jspecify.annotations.NullMarked;
