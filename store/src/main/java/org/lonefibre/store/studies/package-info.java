/** Studies: facts, documents, decisions, signatures. */
@NullMarked
package org.lonefibre.store.studies;

import org.jspecify.annotations.NullMarked;
