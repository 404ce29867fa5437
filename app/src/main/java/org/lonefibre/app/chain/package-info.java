/** The test of the laboratory's own machine and export. */
@NullMarked
package org.lonefibre.app.chain;

import org.jspecify.annotations.NullMarked;
