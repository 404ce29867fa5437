/** Recordings with known truth are judged by a person, and the answers scored. */
@NullMarked
package org.lonefibre.workbench.practice;

import org.jspecify.annotations.NullMarked;
