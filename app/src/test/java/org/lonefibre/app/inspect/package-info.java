@NullMarked
package org.lonefibre.app.inspect;

import org.jspecify.annotations.NullMarked;
