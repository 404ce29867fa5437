/** One fibre or more: the judgement of each potential, with its reasons. */
@NullMarked
package org.lonefibre.analysis.grading;

import org.jspecify.annotations.NullMarked;
