package org.lonefibre.formats.reader;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.TimeBase;

class SampleRunsTest {

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
  void whatIsReadIsWhatIsThereForAnyPatternOfMissingSamples(long seed) throws IOException {
    Random random = new Random(seed);
    SampleRuns.Builder builder = new SampleRuns.Builder();
    List<Long> there = new ArrayList<>();
    long at = random.nextInt(3);
    for (int r = 0; r < 200; r++) {
      int length = random.nextInt(4);
      assertThat(builder.add(at, length)).isTrue();
      for (int k = 0; k < length; k++) {
        there.add(at + k);
      }
      at += length + random.nextInt(3);
    }
    SampleRuns runs = builder.build();
    assertThat(runs.sampleCount()).isEqualTo(there.size());
    for (int k = 0; k < 100; k++) {
      int first = random.nextInt(there.size());
      int length = random.nextInt(there.size() - first + 1);
      List<Long> read = new ArrayList<>();
      runs.forEach(
          first,
          length,
          (source, offset, count) -> {
            assertThat(offset).isEqualTo(read.size());
            for (int i = 0; i < count; i++) {
              read.add(source + i);
            }
          });
      assertThat(read).isEqualTo(there.subList(first, first + length));
    }
    long next = 0;
    for (Segment segment : runs.segments(new TimeBase(1, 1))) {
      assertThat(segment.firstSample()).isEqualTo(next);
      assertThat(segment.startS()).isEqualTo((double) there.get((int) next));
      next = segment.endSample();
      assertThat(there.get((int) next - 1))
          .isEqualTo((long) segment.startS() + segment.sampleCount() - 1);
    }
    assertThat(next).isEqualTo(there.size());
  }

  @Test
  void runsThatJoinAreOne() {
    SampleRuns.Builder builder = new SampleRuns.Builder();
    builder.add(5, 3);
    builder.add(8, 2);
    assertThat(builder.build().segments(new TimeBase(10, 1)))
        .containsExactly(new Segment(0, 5, 0.5));
    assertThat(SampleRuns.whole(0).segments(new TimeBase(10, 1))).isEmpty();
  }

  @Test
  void runsThatGoBackAreTheCallersMistake() {
    SampleRuns.Builder builder = new SampleRuns.Builder();
    builder.add(5, 3);
    assertThatThrownBy(() -> builder.add(7, 1)).isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> builder.add(9, -1)).isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void moreInterruptionsThanAreKeptAreSaid() {
    SampleRuns.Builder builder = new SampleRuns.Builder();
    for (long k = 0; k < SampleRuns.MOST_RUNS; k++) {
      assertThat(builder.add(2 * k, 1)).isTrue();
    }
    assertThat(builder.add(1L << 40, 1)).isFalse();
    assertThat(builder.build().sampleCount()).isEqualTo(SampleRuns.MOST_RUNS);
  }

  @Test
  void aCutDividesWhatWouldJoin() {
    SampleRuns.Builder builder = new SampleRuns.Builder();
    builder.add(0, 10);
    builder.cut();
    builder.add(10, 5);
    builder.add(15, 5);
    SampleRuns runs = builder.build();
    assertThat(runs.segments(source -> 2.0 * source))
        .containsExactly(new Segment(0, 10, 0), new Segment(10, 10, 20));
  }
}
