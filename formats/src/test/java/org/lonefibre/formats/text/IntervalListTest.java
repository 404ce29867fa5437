package org.lonefibre.formats.text;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.lonefibre.formats.RecordingReaders;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.formats.text.IntervalList.Entry;
import org.lonefibre.formats.text.IntervalList.Unit;
import org.lonefibre.signal.recording.RecordingFormatException;

/** Lists as they come: marks of encodings, ends of lines, names, and lines that are none. */
class IntervalListTest {

  @TempDir Path folder;

  private List<Entry> read(String text, Charset charset) throws IOException {
    Path file = Files.write(folder.resolve("list.txt"), text.getBytes(charset));
    return IntervalList.read(file, Unit.US).entries();
  }

  private List<Entry> read(String text) throws IOException {
    return read(text, StandardCharsets.UTF_8);
  }

  @Test
  void aByteOrderMarkDoesNotMakeTheFirstIntervalAName() throws IOException {
    List<Entry> plain = List.of(new Entry(1, null, 812.0), new Entry(2, null, 799.0));
    assertThat(read("812\n799\n")).isEqualTo(plain);
    assertThat(read("\uFEFF812\n799\n")).isEqualTo(plain);
    assertThat(read("\uFEFF812\n799\n", StandardCharsets.UTF_16LE)).isEqualTo(plain);
    assertThat(read("\uFEFF812\n799\n", StandardCharsets.UTF_16BE)).isEqualTo(plain);
  }

  @ParameterizedTest
  @ValueSource(strings = {"\n", "\r\n", "\r"})
  void linesEndAsOnAnySystem(String end) throws IOException {
    assertThat(read("interval" + end + "812" + end + end + "-" + end + "799"))
        .containsExactly(
            new Entry(2, null, 812.0), new Entry(4, null, null), new Entry(5, null, 799.0));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {";", ",", " ; ", "NaN\n812", "inf\n812", "names\nnames\n812", "1e999", "812 3 4"})
  void aLineThatIsNoIntervalIsRefusedByItsNumber(String text) {
    assertThatThrownBy(() -> read(text))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageContaining("list.txt: line ");
  }

  @Test
  void aLineTooLongIsRefusedAndNotCut() {
    assertThatThrownBy(() -> read("# note\n" + "9".repeat(1001) + "\n"))
        .hasMessageContaining("line 2")
        .hasMessageContaining("1000 characters");
  }

  @Test
  void aFolderIsNoListAndAListIsNoRecording() throws IOException {
    assertThatThrownBy(() -> IntervalList.read(folder, Unit.US)).hasMessageContaining("a folder");
    Path list = Files.writeString(folder.resolve("list.txt"), "812\n799\n-\n801\n");
    assertThatThrownBy(
            () -> RecordingReaders.open(list, ReadOptions.defaults().withSamplingRateHz(50_000)))
        .hasMessageContaining("line 3")
        .hasMessageContaining("the command intervals");
  }

  @Test
  void bytesThatAreNoTextAreRefused() {
    assertThatThrownBy(() -> read("\0\0\1", StandardCharsets.ISO_8859_1))
        .hasMessageContaining("lines of text");
  }
}
