/** What is declared of a study, and the door of the chain that measures it. */
@NullMarked
package org.lonefibre.workbench.declaration;

import org.jspecify.annotations.NullMarked;
