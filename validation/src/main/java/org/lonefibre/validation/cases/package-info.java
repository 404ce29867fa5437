/** What the model hands to the measuring chain and to its tests, in files. */
@NullMarked
package org.lonefibre.validation.cases;

import org.jspecify.annotations.NullMarked;
