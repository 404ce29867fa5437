/** Tests. */
@NullMarked
package org.lonefibre.report.figure;

import org.jspecify.annotations.NullMarked;
