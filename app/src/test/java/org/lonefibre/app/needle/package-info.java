@NullMarked
package org.lonefibre.app.needle;

import org.jspecify.annotations.NullMarked;
