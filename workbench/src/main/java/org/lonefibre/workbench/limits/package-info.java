/** Published limits and the record of changes. */
@NullMarked
package org.lonefibre.workbench.limits;

import org.jspecify.annotations.NullMarked;
