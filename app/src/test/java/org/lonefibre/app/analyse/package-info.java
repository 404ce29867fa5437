@NullMarked
package org.lonefibre.app.analyse;

import org.jspecify.annotations.NullMarked;
