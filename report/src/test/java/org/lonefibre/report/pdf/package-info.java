/** Tests. */
@NullMarked
package org.lonefibre.report.pdf;

import org.jspecify.annotations.NullMarked;
