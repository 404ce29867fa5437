package org.lonefibre.app.copy;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.app.CommandRun;
import org.lonefibre.formats.RecordingReaders;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Recording;

class CopyCommandTest {

  /** An invented person, in every field that can hold one. */
  private static final String NAME = "Zappelmann";

  @TempDir Path folder;

  private Path text(String format) throws IOException {
    Random random = new Random(4);
    StringBuilder rows = new StringBuilder("time (s),EMG (mV)\n");
    for (int k = 0; k < 20_000; k++) {
      rows.append(
          String.format(
              Locale.ROOT,
              "%.5f," + format + "%n",
              k / 20_000.0,
              random.nextInt(60_000) * 0.001 - 30));
    }
    return Files.writeString(folder.resolve("t.csv"), rows);
  }

  /**
   * EDF+ with a name in patient, recording, label, transducer, prefilter, reserved, annotations.
   */
  private Path named() throws IOException {
    StringBuilder head = new StringBuilder();
    field(head, "0", 8);
    field(head, "MCH-77 F 02-AUG-1951 " + NAME, 80);
    field(head, "Startdate 05-MAR-2024 EMG-1 " + NAME + " c:/" + NAME + ".edf", 80);
    field(head, "05.03.24", 8);
    field(head, "10.11.12", 8);
    field(head, "768", 8);
    field(head, "EDF+C", 44);
    field(head, "2", 8);
    field(head, "1", 8);
    field(head, "2", 4);
    for (String[] two :
        new String[][] {
          {NAME, "EDF Annotations", "16"},
          {"needle of " + NAME, "", "80"},
          {"uV", "", "8"},
          {"-100", "-1", "8"},
          {"100", "1", "8"},
          {"-2048", "-32768", "8"},
          {"2047", "32767", "8"},
          {"HP:500Hz LP:10kHz " + NAME, "", "80"},
          {"1000", "60", "8"},
          {NAME, "", "32"}
        }) {
      field(head, two[0], Integer.parseInt(two[2]));
      field(head, two[1], Integer.parseInt(two[2]));
    }
    byte[] bytes = new byte[768 + 2 * 2120 + 37];
    System.arraycopy(head.toString().getBytes(StandardCharsets.US_ASCII), 0, bytes, 0, 768);
    for (int record = 0; record < 2; record++) {
      for (int k = 0; k < 1000; k++) {
        int value = (k * 37 + record * 11) % 4096 - 2048;
        bytes[768 + record * 2120 + 2 * k] = (byte) value;
        bytes[768 + record * 2120 + 2 * k + 1] = (byte) (value >> 8);
      }
      String lists =
          "+"
              + record
              + "\u0014\u0014\u0000+"
              + record
              + ".25\u0014"
              + (record == 0 ? "site " + NAME : NAME + " coughs")
              + "\u0014\u0000"
              + "+"
              + record
              + ".5\u0014stimulus "
              + NAME
              + "\u0014\u0000";
      byte[] written = lists.getBytes(StandardCharsets.US_ASCII);
      System.arraycopy(written, 0, bytes, 768 + record * 2120 + 2000, written.length);
    }
    byte[] trailing = ("left over of " + NAME).getBytes(StandardCharsets.US_ASCII);
    System.arraycopy(trailing, 0, bytes, bytes.length - 37, trailing.length);
    return Files.write(folder.resolve("n.edf"), bytes);
  }

  private static void field(StringBuilder head, String text, int width) {
    head.append(text, 0, Math.min(width, text.length()));
    head.append(" ".repeat(Math.max(0, width - text.length())));
  }

  @Test
  void withoutAWordOfThePersonAnywhereAndTheSameSamples() throws IOException {
    Path out = folder.resolve("a.edf");
    CommandRun run =
        CommandRun.of("copy", named(), "--out", out, "--anonymous", "--shift-days", "-700");
    assertThat(run.errors()).isEmpty();
    assertThat(run.exitCode()).isZero();
    String bytes = Files.readString(out, StandardCharsets.ISO_8859_1);
    assertThat(bytes)
        .doesNotContainIgnoringCase(NAME)
        .doesNotContain("MCH", "1951", "2024", "EMG-1", "05.03.24");
    assertThat(run.output())
        .contains("every sample is the same to the last bit")
        .contains("bytes 8 to 87, patient: \"MCH-77 F 02-AUG-1951 " + NAME + "\" -> \"X X X X\"")
        .contains("start date: \"05.03.24\" -> \"05.04.22\"")
        .contains("reserved of signal 1: \"" + NAME + "\" -> \"\"")
        .contains("site \"" + NAME + "\" -> \"1\"")
        .contains("1.250 s \"" + NAME + " coughs\"");
    try (Recording copy = RecordingReaders.open(out, ReadOptions.defaults());
        Recording source = RecordingReaders.open(folder.resolve("n.edf"), ReadOptions.defaults())) {
      double[] a = new double[2000];
      double[] b = new double[2000];
      source.read(source.channels().get(0), 0, a, 0, 2000);
      copy.read(copy.channels().get(0), 0, b, 0, 2000);
      assertThat(b).isEqualTo(a);
      assertThat(copy.channels().get(0).label()).isEqualTo("signal 1");
      assertThat(copy.channels().get(0).prefilter()).isEqualTo("HP:500Hz LP:10kHz");
      assertThat(copy.annotations())
          .extracting(Annotation::text)
          .containsExactly("site 1", "stimulus", "stimulus");
      assertThat(copy.findStart()).hasToString("Optional[2022-04-05T10:11:12]");
    }
  }

  @Test
  void withoutAnonymousWhoAndWhenStay() throws IOException {
    Path out = folder.resolve("b.edf");
    assertThat(CommandRun.of("copy", named(), "--out", out).exitCode()).isZero();
    assertThat(Files.readString(out, StandardCharsets.ISO_8859_1))
        .contains("MCH-77 F 02-AUG-1951 " + NAME)
        .contains("Startdate 05-MAR-2024 EMG-1 " + NAME)
        .contains("needle of " + NAME)
        .contains(NAME + " coughs")
        .doesNotContain("left over");
  }

  @Test
  void theNameOfTheFileIsLookedAtToo() throws IOException {
    CommandRun run =
        CommandRun.of("copy", named(), "--out", folder.resolve("zappelmann2.edf"), "--anonymous");
    assertThat(run.output()).contains("the name of the file holds \"zappelmann\"");
  }

  @Test
  void decimalTextIsCopiedExactly() throws IOException {
    CommandRun run = CommandRun.of("copy", text("%.3f"), "--out", folder.resolve("c.edf"));
    assertThat(run.exitCode()).isZero();
    assertThat(run.output()).contains("EDF+C, 20000 samples").contains("every sample");
  }

  @Test
  void realNumbersAreRefusedWithTheReason() throws IOException {
    String irrational =
        Files.readString(text("%.17f")).replaceAll("(?m),(-?[0-9]+\\.)", ",$1314159");
    Path file = Files.writeString(folder.resolve("r.csv"), irrational);
    CommandRun run = CommandRun.of("copy", file, "--out", folder.resolve("r.edf"));
    assertThat(run.exitCode()).isEqualTo(2);
    assertThat(run.errors()).hasLineCount(1).contains("more digits").contains("r.csv");
    assertThat(folder.resolve("r.edf")).doesNotExist();
  }

  @Test
  void aFileThatExistsIsReplacedOnlyOnRequestAndNothingIsLeftBehind() throws IOException {
    Path out = Files.writeString(folder.resolve("old.edf"), "old");
    Path file = named();
    CommandRun run = CommandRun.of("copy", file, "--out", out);
    assertThat(run.exitCode()).isEqualTo(2);
    assertThat(run.errors()).hasLineCount(1).contains("--replace");
    assertThat(Files.readString(out)).isEqualTo("old");
    assertThat(CommandRun.of("copy", file, "--out", out, "--replace").exitCode()).isZero();
    assertThat(Files.size(out)).isGreaterThan(4000);
    assertThat(CommandRun.of("copy", file, "--out", file, "--replace").exitCode()).isEqualTo(2);
    try (Stream<Path> files = Files.list(folder)) {
      assertThat(files).containsExactlyInAnyOrder(file, out);
    }
  }
}
