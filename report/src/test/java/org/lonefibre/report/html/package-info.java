/** Tests. */
@NullMarked
package org.lonefibre.report.html;

import org.jspecify.annotations.NullMarked;
