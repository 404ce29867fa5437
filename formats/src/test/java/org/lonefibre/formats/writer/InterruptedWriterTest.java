package org.lonefibre.formats.writer;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.lonefibre.formats.RecordingReaders;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.TimeBase;

/** Recordings with gaps, written and read again. */
class InterruptedWriterTest {

  private static final TimeBase RATE = new TimeBase(390_625, 8);

  @TempDir Path folder;

  private static Recording cut(MadeRecording made, List<List<Segment>> segments) {
    List<Channel> channels = new ArrayList<>();
    for (int c = 0; c < segments.size(); c++) {
      Channel whole = made.channels().get(c);
      channels.add(
          new Channel(
              whole.number(),
              whole.label(),
              whole.unit(),
              whole.calibration(),
              whole.timeBase(),
              whole.sampleCount(),
              segments.get(c),
              whole.lowRailUv(),
              whole.highRailUv(),
              whole.resolutionUv(),
              whole.prefilter()));
    }
    return new RecordingView(made, MadeRecording.START, channels, made.annotations());
  }

  private LosslessCopy.Copied copy(Recording recording) throws IOException {
    return LosslessCopy.write(
        recording,
        EdfIdentity.of("S1", MadeRecording.START),
        folder.resolve("d.edf"),
        LosslessCopy.Existing.REPLACE);
  }

  private Recording read() throws IOException {
    return RecordingReaders.open(folder.resolve("d.edf"), ReadOptions.defaults());
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 3, 4, 5, 6, 7, 8})
  @Tag("property")
  void row6GapsOfAnyLengthAreWrittenAndReadAgainSampleBySample(int seed) throws IOException {
    Random random = new Random(seed);
    List<Segment> segments = new ArrayList<>();
    long first = 0;
    double startS = 0;
    TimeBase rate = seed % 2 == 0 ? TimeBase.ofHz(50_000) : RATE;
    int step = seed % 2 == 0 ? 1 : 500;
    for (int s = 0; s < 2 + random.nextInt(4); s++) {
      long count = step * (1L + random.nextInt(seed % 2 == 0 ? 3000 : 40));
      segments.add(new Segment(first, count, startS));
      first += count;
      startS += rate.timeS(count) + 0.001 + random.nextDouble();
    }
    MadeRecording made =
        new MadeRecording()
            .channel("EMG", rate, MadeRecording.steps(random, (int) first, 0.2), 0.2);
    made.annotate(0, "site 1");
    made.annotate(startS - 0.0005, "site 2");
    LosslessCopy.Copied copied = copy(cut(made, List.of(segments)));
    assertThat(copied.format()).isEqualTo("EDF+D");
    assertThat(copied.proof().samples()).isEqualTo(first);
    try (Recording recording = read()) {
      List<Segment> found = recording.channels().get(0).segments();
      assertThat(found).hasSameSizeAs(segments);
      for (int s = 0; s < segments.size(); s++) {
        assertThat(found.get(s).startS()).isCloseTo(segments.get(s).startS(), within(1e-9));
      }
      assertThat(recording.annotations()).extracting(Annotation::text).contains("site 1", "site 2");
      assertThat(recording.findStart()).contains(MadeRecording.START);
    }
  }

  @Test
  void row6ChannelsOfTwoRatesShareTheirGaps() throws IOException {
    MadeRecording made =
        new MadeRecording()
            .channel("A", TimeBase.ofHz(20_000), MadeRecording.steps(new Random(1), 3000, 1), 1.0)
            .channel("B", TimeBase.ofHz(2_000), MadeRecording.steps(new Random(2), 300, 1), 1.0);
    copy(
        cut(
            made,
            List.of(
                List.of(new Segment(0, 1000, 0), new Segment(1000, 2000, 0.75)),
                List.of(new Segment(0, 100, 0), new Segment(100, 200, 0.75)))));
    try (Recording recording = read()) {
      assertThat(recording.channels().get(1).segments())
          .containsExactly(new Segment(0, 100, 0), new Segment(100, 200, 0.75));
    }
  }

  @Test
  void aStretchThatNoExactRecordDividesIsRefused() {
    MadeRecording made = new MadeRecording().channel("A", RATE, new double[3000], 1.0);
    assertThatThrownBy(
            () ->
                copy(
                    cut(
                        made,
                        List.of(List.of(new Segment(0, 1003, 0), new Segment(1003, 1997, 0.75))))))
        .hasMessageContaining("do not fall on whole records");
  }

  @Test
  void gapsThatDifferBetweenChannelsOrCutASampleAreRefused() {
    MadeRecording made =
        new MadeRecording()
            .channel("A", TimeBase.ofHz(20_000), new double[3000], 1.0)
            .channel("B", TimeBase.ofHz(2_000), new double[300], 1.0);
    assertThatThrownBy(
            () ->
                copy(
                    cut(
                        made,
                        List.of(
                            List.of(new Segment(0, 3000, 0)),
                            List.of(new Segment(0, 100, 0), new Segment(100, 200, 0.75))))))
        .hasMessageContaining("different gaps");
    assertThatThrownBy(
            () ->
                copy(
                    cut(
                        made,
                        List.of(
                            List.of(new Segment(0, 1003, 0), new Segment(1003, 1997, 0.75)),
                            List.of(new Segment(0, 100, 0), new Segment(100, 200, 0.75))))))
        .hasMessageContaining("whole samples of all channels");
  }
}
