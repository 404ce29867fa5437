/** The facts of an examination, as they are written to analysis.json. */
@NullMarked
package org.lonefibre.analysis.study;

import org.jspecify.annotations.NullMarked;
