/** Tests. */
@NullMarked
package org.lonefibre.report.document;

import org.jspecify.annotations.NullMarked;
