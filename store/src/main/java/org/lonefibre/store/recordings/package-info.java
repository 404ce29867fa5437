/** Recordings as unchanged files. */
@NullMarked
package org.lonefibre.store.recordings;

import org.jspecify.annotations.NullMarked;
