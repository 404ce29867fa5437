/** Recordings come in. */
@NullMarked
package org.lonefibre.workbench.importing;

import org.jspecify.annotations.NullMarked;
