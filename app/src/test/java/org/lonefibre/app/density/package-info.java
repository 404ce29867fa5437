@NullMarked
package org.lonefibre.app.density;

import org.jspecify.annotations.NullMarked;
