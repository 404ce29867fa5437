/** Tests. */
@NullMarked
package org.lonefibre.report.csv;

import org.jspecify.annotations.NullMarked;
