/** Who changed what, when and why: a chain of hashes, and the seal of this installation. */
@NullMarked
package org.lonefibre.store.audit;

import org.jspecify.annotations.NullMarked;
