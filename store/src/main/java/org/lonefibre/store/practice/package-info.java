/** Answers of people who practise on recordings with known truth. */
@NullMarked
package org.lonefibre.store.practice;

import org.jspecify.annotations.NullMarked;
