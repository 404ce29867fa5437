package org.lonefibre.formats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.formats.reader.SiteCutter;
import org.lonefibre.formats.reader.SiteCutter.SiteStretch;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.RecordingFormatException;

class RecordingReadersTest {

  @TempDir Path folder;

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "<!DOCTYPE html><html>|an HTML page",
        "<?xml version='1.0'?>|an XML document",
        "'PK\u0003\u0004'|a ZIP archive",
        "%PDF-1.7|a PDF document",
        "RIFF....AVI |a sound or video file",
        "{\"a\": 1}|a JSON document",
        "''|an empty file",
        "'\u0000\u0000\u0000\u0000\u0000'|nothing but zeros",
        "FORM....AIFF|a sound file; save it as WAV",
        "fLaC....|a sound file, packed with FLAC; save it as WAV",
        "....ftypM4A |a sound or video file as telephones write it, whose coding usually loses detail;",
        "#!AMR|a sound file of a telephone, whose coding loses detail; record plain WAV",
        "'\u00ff\u00fb\u0090d'|a sound file whose coding loses detail; record plain WAV",
        "Dear colleague, please find|text that is not columns of numbers",
        "'\u0001\u0002\u0003'|bytes of no known format"
      })
  void row18AFileNamedEdfThatIsSomethingElseIsNamedForWhatItIs(String content, String expected)
      throws IOException {
    Path file =
        Files.write(folder.resolve("page.edf"), content.getBytes(StandardCharsets.ISO_8859_1));
    assertThatThrownBy(() -> RecordingReaders.open(file, ReadOptions.defaults()))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageStartingWith("page.edf: byte 0: expected EDF")
        .hasMessageContaining("found " + expected);
  }

  @Test
  void aTableInColumnsOfFixedWidthIsTextAlthoughItBeginsLikeEdf() throws IOException {
    StringBuilder text = new StringBuilder();
    for (int k = 0; k < 100; k++) {
      text.append(String.format(java.util.Locale.ROOT, "%-9s%7.3f%n", k / 1000.0, k % 7 - 3.0));
    }
    text.replace(0, 9, "0        ");
    Path file = Files.writeString(folder.resolve("table.txt"), text);
    try (Recording recording = RecordingReaders.open(file, ReadOptions.defaults())) {
      assertThat(recording.format()).isEqualTo("text");
      assertThat(recording.channels()).hasSize(1);
    }
  }

  @Test
  void channelsWithoutAUnitAreSaidAsRanges() throws IOException {
    StringBuilder text = new StringBuilder("time (s),a,b,c,d (uV),e,f\n");
    for (int k = 0; k < 100; k++) {
      text.append(k / 100.0).append(",1,2,3,4,5,6\n");
    }
    Path file = Files.writeString(folder.resolve("many.csv"), text);
    try (Recording recording = RecordingReaders.open(file, ReadOptions.defaults())) {
      assertThat(recording.findings())
          .singleElement()
          .satisfies(f -> assertThat(f.text()).startsWith("The unit of channels 1 to 3, 5, 6 is "));
    }
  }

  @Test
  void aMissingFileAndAFolderAreRefusedInOneLine() {
    assertThatThrownBy(
            () -> RecordingReaders.open(folder.resolve("none.edf"), ReadOptions.defaults()))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageContaining("nothing of that name");
    assertThatThrownBy(() -> RecordingReaders.open(folder, ReadOptions.defaults()))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageContaining("a folder");
  }

  @Test
  void optionsThatCannotBeAreRefused() {
    assertThatThrownBy(() -> ReadOptions.defaults().withSamplingRateHz(0))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> ReadOptions.defaults().withSamplingRateHz(Double.POSITIVE_INFINITY))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> ReadOptions.defaults().withGainUvPerUnit(Double.NaN))
        .isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void annotationsThatNameASiteCutTheRecording() {
    List<Annotation> annotations =
        List.of(
            new Annotation(0.5, null, "Site 1"),
            new Annotation(1, null, "needle moved"),
            new Annotation(9, null, "  SITE deep one "),
            new Annotation(10, null, "site"),
            new Annotation(11, null, "sites of interest"));
    assertThat(SiteCutter.listSites(annotations))
        .containsExactly(
            new SiteStretch("1", 0.5, 9), new SiteStretch("deep one", 9, Double.POSITIVE_INFINITY));
  }

  @Test
  void annotationsThatNameAStimulusGiveItsTimes() {
    List<Annotation> annotations =
        List.of(
            new Annotation(0.1, null, "stimulus"),
            new Annotation(0.2, null, "Stim: 3"),
            new Annotation(0.3, null, "TRIGGER"),
            new Annotation(0.4, null, "stimulation ends"));
    assertThat(SiteCutter.listStimuliS(annotations)).containsExactly(0.1, 0.2, 0.3);
  }
}
