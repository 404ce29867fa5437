/** The command {@code report}: renders an analysis again. */
@NullMarked
package org.lonefibre.app.report;

import org.jspecify.annotations.NullMarked;
