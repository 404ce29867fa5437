package org.lonefibre.store;

import org.jspecify.annotations.Nullable;

/** The tables in the data folder. */
class FolderStoreTest extends StoreContract {

  @Override
  @Nullable String freshDatabase() {
    return null;
  }
}
