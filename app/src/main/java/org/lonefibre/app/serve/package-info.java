/** {@code serve}: the workbench on loopback, wired to the chain. */
@NullMarked
package org.lonefibre.app.serve;

import org.jspecify.annotations.NullMarked;
