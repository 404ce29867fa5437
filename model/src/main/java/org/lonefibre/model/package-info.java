/** The needle in muscle. */
@NullMarked
package org.lonefibre.model;

import org.jspecify.annotations.NullMarked;
