/** Long work: watched, cancelled, one after the other. */
@NullMarked
package org.lonefibre.workbench.work;

import org.jspecify.annotations.NullMarked;
