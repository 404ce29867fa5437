/** The database, its tables and their versions. */
@NullMarked
package org.lonefibre.store.migration;

import org.jspecify.annotations.NullMarked;
