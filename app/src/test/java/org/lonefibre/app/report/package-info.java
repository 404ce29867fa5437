/** The commands that render and send, run as a shell runs them. */
@NullMarked
package org.lonefibre.app.report;

import org.jspecify.annotations.NullMarked;
