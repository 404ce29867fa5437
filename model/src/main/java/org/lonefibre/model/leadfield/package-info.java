/** Lead fields. */
@NullMarked
package org.lonefibre.model.leadfield;

import org.jspecify.annotations.NullMarked;
