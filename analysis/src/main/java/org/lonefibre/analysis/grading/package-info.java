/**
 * One fibre or more: the judgement of each potential, with its reasons. What stays the same when a
 * fibre fails is looked for in the class ComponentDropOut.
 */
@NullMarked
package org.lonefibre.analysis.grading;

import org.jspecify.annotations.NullMarked;
