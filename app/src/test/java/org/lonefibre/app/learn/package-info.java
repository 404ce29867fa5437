@NullMarked
package org.lonefibre.app.learn;

import org.jspecify.annotations.NullMarked;
