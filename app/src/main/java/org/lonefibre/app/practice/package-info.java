/** Cases for practice: simulated recordings whose truth is known. */
@NullMarked
package org.lonefibre.app.practice;

import org.jspecify.annotations.NullMarked;
