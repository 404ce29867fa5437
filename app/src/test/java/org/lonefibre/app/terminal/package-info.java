@NullMarked
package org.lonefibre.app.terminal;

import org.jspecify.annotations.NullMarked;
