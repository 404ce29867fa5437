/** Studies: what was found, decided, written and signed. */
@NullMarked
package org.lonefibre.workbench.study;

import org.jspecify.annotations.NullMarked;
