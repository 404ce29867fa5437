/** Tests of the reports, on invented examinations. */
@NullMarked
package org.lonefibre.report;

import org.jspecify.annotations.NullMarked;
