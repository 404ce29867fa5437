package org.lonefibre.store.recordings;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@Tag("contract")
class DerivedFilesTest {

  @TempDir @Nullable Path temporary;

  private Path folder() {
    return Objects.requireNonNull(temporary).resolve("derived");
  }

  private static byte[] content(int length, int value) {
    byte[] content = new byte[length];
    java.util.Arrays.fill(content, (byte) value);
    return content;
  }

  private List<Path> files() throws IOException {
    try (var files = Files.list(folder())) {
      return files.toList();
    }
  }

  @Test
  void whatIsKeptIsFoundUnderItsNameOnly() throws IOException {
    DerivedFiles derived = new DerivedFiles(folder());
    assertThat(derived.find("a")).isEmpty();
    derived.keep("a", content(1000, 7));
    assertThat(derived.find("a")).contains(content(1000, 7));
    assertThat(derived.find("b")).isEmpty();
    assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(files().get(0))))
        .isEqualTo("rw-------");
    // The file of one name under another name is not taken for it.
    derived.keep("b", content(10, 1));
    Path first = files().stream().filter(file -> file.toFile().length() > 500).findFirst().get();
    Path other = files().stream().filter(file -> file.toFile().length() < 500).findFirst().get();
    Files.write(other, Files.readAllBytes(first));
    assertThat(derived.find("b")).isEmpty();
  }

  @Test
  void aFileThatWasChangedOrCutIsAsGoodAsNone() throws IOException {
    DerivedFiles derived = new DerivedFiles(folder());
    derived.keep("a", content(1000, 7));
    Path file = files().get(0);
    byte[] whole = Files.readAllBytes(file);
    byte[] changed = whole.clone();
    changed[500] ^= 1;
    Files.write(file, changed);
    assertThat(derived.find("a")).isEmpty();
    for (int length : new int[] {0, 10, 32, 999}) {
      Files.write(file, java.util.Arrays.copyOf(whole, length));
      assertThat(derived.find("a")).as("%d bytes", length).isEmpty();
    }
    derived.keep("a", content(1000, 7));
    assertThat(derived.find("a")).contains(content(1000, 7));
  }

  @Test
  void whatWasUsedLongestAgoGoesFirst() throws IOException {
    DerivedFiles derived = new DerivedFiles(folder(), 350);
    derived.keep("old", content(100, 1));
    Files.setLastModifiedTime(files().get(0), FileTime.fromMillis(1000));
    derived.keep("new", content(100, 2));
    derived.keep("newest", content(100, 3));
    assertThat(derived.find("old")).isEmpty();
    assertThat(derived.find("new")).isPresent();
    assertThat(derived.find("newest")).isPresent();
    derived.keep("too large", content(400, 4));
    assertThat(derived.find("too large")).isEmpty();
    assertThat(derived.find("newest")).as("nothing went for it").isPresent();
  }

  @Test
  void whatAnInterruptedCopyLeftIsSwept() throws IOException {
    DerivedFiles derived = new DerivedFiles(folder());
    derived.sweep();
    derived.keep("a", content(10, 1));
    Files.write(folder().resolve("incoming-x"), content(5, 1));
    derived.sweep();
    assertThat(files()).hasSize(1);
  }
}
