@NullMarked
package org.lonefibre.app.simulate;

import org.jspecify.annotations.NullMarked;
