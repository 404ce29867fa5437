package org.lonefibre.formats.edf;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.RecordingFormatException;
import org.lonefibre.signal.recording.Segment;

/** Where time is cut when the times of the records are not what they should be. */
class EdfStretchesTest {

  private static final int SAMPLES = 10;

  @TempDir Path folder;

  private List<Segment> segments(String kind, String... times) throws IOException {
    Path file =
        EdfFile.edf()
            .reserved(kind)
            .records("", times.length)
            .signal("EMG", "uV", SAMPLES)
            .annotations(r -> times[r] + "\u0014\u0014\u0000")
            .write(folder, "a.edf");
    try (Recording recording = new EdfReader().open(file, ReadOptions.defaults())) {
      return recording.channels().get(0).segments();
    }
  }

  @Test
  void aStepBackThatIsNotBelievedAndTheStepThatMakesUpForItCutNothing() throws IOException {
    assertThat(segments("EDF+C", "+0", "-10", "-5", "+3"))
        .containsExactly(new Segment(0, 4 * SAMPLES, 0));
  }

  @Test
  void aJumpBeyondWhatAStepBackTookIsStillAGap() throws IOException {
    assertThat(segments("EDF+C", "+0", "-10", "+20", "+21"))
        .containsExactly(new Segment(0, 2 * SAMPLES, 0), new Segment(2 * SAMPLES, 2 * SAMPLES, 20));
  }

  @Test
  void recordsThatAreApartAreNotTakenForRoundedTimesWhenTheirZerosAreTrimmed() throws IOException {
    assertThat(shortRecords("+0", "+0.1", "+0.2", "+0.3", "+0.4")).hasSize(5);
    assertThat(shortRecords("+0", "+0", "+0", "+0", "+0", "+0", "+0.1", "+0.1", "+0.1", "+0.1"))
        .hasSize(1);
  }

  /** Records of 16 ms whose times show tenths of a second. */
  private List<Segment> shortRecords(String... times) throws IOException {
    Path file =
        EdfFile.edf()
            .reserved("EDF+D")
            .records("", times.length)
            .duration("0.016")
            .signal("EMG", "uV", SAMPLES)
            .annotations(r -> times[r] + "\u0014\u0014\u0000")
            .write(folder, "short.edf");
    try (Recording recording = new EdfReader().open(file, ReadOptions.defaults())) {
      return recording.channels().get(0).segments();
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"EDF+C", "EDF+D"})
  void whateverTheTimesNoStretchBeginsBeforeTheOneBeforeEnds(String kind) throws IOException {
    int read = 0;
    for (int seed = 0; seed < 300; seed++) {
      Random random = new Random(seed);
      String[] times = new String[8];
      double time = 0;
      for (int r = 0; r < times.length; r++) {
        times[r] =
            r > 0 && random.nextInt(6) == 0 ? "x" : String.format(Locale.ROOT, "%+.3f", time);
        boolean isContinuous = kind.endsWith("C");
        time +=
            switch (random.nextInt(4)) {
              case 0 -> isContinuous ? random.nextInt(9) - 4 : 1 + random.nextInt(3);
              case 1 -> 0.96;
              default -> 1 + 0.06 * random.nextInt(3);
            };
      }
      double endS = 0;
      try {
        for (Segment segment : segments(kind, times)) {
          assertThat(segment.startS())
              .as("%s, seed %d: %s", kind, seed, List.of(times))
              .isGreaterThanOrEqualTo(endS - 1e-9);
          endS = segment.startS() + segment.sampleCount() / (double) SAMPLES;
        }
        read++;
      } catch (RecordingFormatException e) {
        assertThat(e.getMessage()).contains("time of record");
      }
    }
    assertThat(read).isGreaterThan(100);
  }
}
