/** A study on paper and on the wire. */
@NullMarked
package org.lonefibre.report;

import org.jspecify.annotations.NullMarked;
