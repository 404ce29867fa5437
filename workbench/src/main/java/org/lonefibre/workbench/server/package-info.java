/** The server on loopback, its guard, and JSON. */
@NullMarked
package org.lonefibre.workbench.server;

import org.jspecify.annotations.NullMarked;
