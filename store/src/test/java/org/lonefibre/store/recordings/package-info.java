/** Tests of the files of recordings. */
@NullMarked
package org.lonefibre.store.recordings;

import org.jspecify.annotations.NullMarked;
