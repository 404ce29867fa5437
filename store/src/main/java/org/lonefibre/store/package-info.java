/**
 * Studies and recordings, kept: {@link org.lonefibre.store.Store} is the door.
 *
 * <ol>
 *   <li>{@code migration} opens the database and brings its tables to the newest version.
 *   <li>{@code audit} is the record of changes and the seal.
 *   <li>{@code recordings} keeps files unchanged, named by their hash.
 *   <li>{@code studies} keeps what is known and decided of them.
 *   <li>{@code Verification} compares all of it with its hashes, {@code SnapshotKeeper} and {@code
 *       Backup} keep copies.
 * </ol>
 */
@NullMarked
package org.lonefibre.store;

import org.jspecify.annotations.NullMarked;
