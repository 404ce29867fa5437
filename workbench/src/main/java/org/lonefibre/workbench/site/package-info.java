/** One recording: its signal, its sweeps, its sound. */
@NullMarked
package org.lonefibre.workbench.site;

import org.jspecify.annotations.NullMarked;
