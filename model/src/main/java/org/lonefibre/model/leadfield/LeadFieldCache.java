package org.lonefibre.model.leadfield;

import java.io.ByteArrayOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.BufferUnderflowException;
import java.nio.ByteBuffer;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * Solved needles on disk, one file each, named by a hash of everything that went in.
 *
 * <ul>
 *   <li>A file is used only if the hash in it is that of the question and its content has the hash
 *       at its end; any other is as if it were not there.
 *   <li>Files appear whole or not at all. A folder that cannot be written is not an error: nothing
 *       is kept then.
 *   <li>Thread rule: safe.
 * </ul>
 */
public final class LeadFieldCache {

  private static final int HASH = 32;
  private static final long LARGEST_BYTES = 1 << 24;

  private final Path folder;

  /** A cache in a folder, which is made when it is needed. */
  public LeadFieldCache(Path folder) {
    this.folder = folder;
  }

  @Nullable SolvedNeedle find(LeadFieldKey key) {
    Path file = folder.resolve(key.fileName());
    try {
      if (!Files.isRegularFile(file) || Files.size(file) > LARGEST_BYTES) {
        return null;
      }
      byte[] all = Files.readAllBytes(file);
      if (all.length < 3 * HASH) {
        return null;
      }
      byte[] content = Arrays.copyOf(all, all.length - HASH);
      byte[] end = Arrays.copyOfRange(all, all.length - HASH, all.length);
      if (!Arrays.equals(LeadFieldKey.hash(content), end)
          || !Arrays.equals(Arrays.copyOf(content, HASH), key.hash())) {
        return null;
      }
      return SolvedNeedle.read(key, ByteBuffer.wrap(content, HASH, content.length - HASH).slice());
    } catch (IOException | BufferUnderflowException | IllegalArgumentException e) {
      return null;
    }
  }

  void keep(LeadFieldKey key, SolvedNeedle solved) {
    ByteArrayOutputStream content = new ByteArrayOutputStream();
    try (DataOutputStream out = new DataOutputStream(content)) {
      out.write(key.hash());
      solved.write(out);
      out.write(LeadFieldKey.hash(content.toByteArray()));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    Path file = folder.resolve(key.fileName());
    try {
      Files.createDirectories(folder);
      Path beside = Files.createTempFile(folder, "lead-", ".part");
      try {
        Files.write(beside, content.toByteArray());
        try {
          Files.move(beside, file, StandardCopyOption.ATOMIC_MOVE);
        } catch (AtomicMoveNotSupportedException e) {
          Files.move(beside, file, StandardCopyOption.REPLACE_EXISTING);
        }
      } finally {
        Files.deleteIfExists(beside);
      }
    } catch (IOException e) {
      // Nothing is kept; the next question is solved again.
      return;
    }
  }
}
