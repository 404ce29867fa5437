@NullMarked
package org.lonefibre.app.copy;

import org.jspecify.annotations.NullMarked;
