package org.lonefibre.formats.edf;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.formats.writer.EdfForm;
import org.lonefibre.formats.writer.EdfPlusWriter;
import org.lonefibre.formats.writer.MadeRecording;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Recording;

/**
 * What we write, read by MNE-Python (made with 1.3.0) through {@code python3}; skipped where it is
 * not installed. The programme is the text below.
 */
@Tag("crossCheck")
class MneDifferentialTest {

  private static final String PROGRAMME =
      """
      import sys, mne
      mne.set_log_level('ERROR')
      read = mne.io.read_raw_bdf if sys.argv[1].endswith('bdf') else mne.io.read_raw_edf
      raw = read(sys.argv[1], preload=True)
      print(repr(float(raw.info['sfreq'])), raw.n_times)
      for k in range(len(raw.ch_names)):
          x = raw.get_data(picks=[k])[0]*1e6
          print(raw.ch_names[k], *(repr(float(v)) for v in x[:1000]))
      for a in raw.annotations:
          print('A', repr(float(a['onset'])), a['description'])
      """;

  @TempDir private Path folder;

  private static List<String> run(List<String> command) throws IOException, InterruptedException {
    Process process;
    try {
      process = new ProcessBuilder(command).redirectError(ProcessBuilder.Redirect.DISCARD).start();
    } catch (IOException e) {
      return List.of();
    }
    String out = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    process.waitFor(2, TimeUnit.MINUTES);
    return process.exitValue() == 0 ? out.lines().toList() : List.of();
  }

  @Test
  void aFileWeWroteIsReadAlikeByAnIndependentReader() throws Exception {
    String python = Files.exists(Path.of("/usr/bin/python3")) ? "/usr/bin/python3" : "python3";
    assumeTrue(
        !run(List.of(python, "-c", "import mne; print(1)")).isEmpty(),
        "skipped: python3 with mne is not installed");
    for (EdfForm form : EdfForm.values()) {
      MadeRecording made = MadeRecording.jitterStudy(50_000);
      Path file = folder.resolve(form == EdfForm.EDF_PLUS ? "made.edf" : "made.bdf");
      EdfPlusWriter.write(made, "S1", MadeRecording.START, file, form);
      List<String> lines = run(List.of(python, "-c", PROGRAMME, file.toString()));
      assertThat(lines).as(file.toString()).isNotEmpty();
      assertThat(lines.get(0)).isEqualTo("48828.125 50000");
      try (Recording recording = new EdfReader().open(file, ReadOptions.defaults())) {
        for (int c = 0; c < 2; c++) {
          Channel channel = recording.channels().get(c);
          double[] samples = new double[1000];
          recording.read(channel, 0, samples, 0, 1000);
          String[] theirs = lines.get(1 + c).substring(channel.label().length() + 1).split(" ");
          for (int k = 0; k < 1000; k++) {
            assertThat(Double.parseDouble(theirs[k])).isCloseTo(samples[k], within(1e-6));
          }
        }
        List<String> annotations = lines.stream().filter(line -> line.startsWith("A ")).toList();
        assertThat(annotations).hasSameSizeAs(recording.annotations());
        for (int a = 0; a < annotations.size(); a++) {
          Annotation ours = recording.annotations().get(a);
          String[] parts = annotations.get(a).split(" ", 3);
          assertThat(Double.parseDouble(parts[1])).isCloseTo(ours.startS(), within(1e-6));
          assertThat(parts[2]).isEqualTo(ours.text());
        }
      }
    }
  }
}
