package org.lonefibre.formats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDateTime;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.TimeBase;

/**
 * Files made by SciPy and h5py (make_mat_and_hdf.py among the resources, with its versions); the
 * samples follow the formula that stands there.
 */
@Tag("crossCheck")
class ArrayFilesCrossCheckTest {

  private static final int COUNT = 600;
  private static final ReadOptions RATE = new ReadOptions(48_828.125, null);

  private static Path file(String name) {
    return Path.of("src", "test", "resources", "org", "lonefibre", "formats").resolve(name);
  }

  private static double whole(int channel, int k) {
    return (k * 37 + 11 * channel) % 2001 - 1000;
  }

  private static void assertSamples(
      Recording recording, int index, int channel, double factor, double base) throws IOException {
    Channel read = recording.channels().get(index);
    assertThat(read.sampleCount()).isEqualTo(COUNT);
    double[] samples = new double[COUNT];
    recording.read(read, 0, samples, 0, COUNT);
    for (int k = 0; k < COUNT; k++) {
      assertThat(samples[k]).isCloseTo(whole(channel, k) * factor + base, within(1e-9));
    }
  }

  @ParameterizedTest
  @CsvSource({
    "mat/plain.mat,emg,2,0,0.25,MATLAB 5",
    "mat/compressed.mat,emg,2,0,0.25,MATLAB 5",
    "mat/compressed.mat,row,1,3,1,MATLAB 5",
    "mat/plain.mat,single,1,1,0.25,MATLAB 5",
    "mat/compressed.mat,data.needle,1,2,1,MATLAB 5",
    "hdf/sets.h5,emg,2,0,0.25,HDF5",
    "hdf/sets.h5,deep/chunked,3,0,1,HDF5",
    "hdf/sets.h5,deep/across,3,0,1,HDF5",
    "hdf/matlab73.mat,emg,2,0,0.25,MATLAB 7.3"
  })
  void arraysAreReadAsTheyWereWritten(
      String name, String variable, int channels, int first, double factor, String format)
      throws IOException {
    try (Recording recording = RecordingReaders.open(file(name), RATE.withVariable(variable))) {
      assertThat(recording.format()).isEqualTo(format);
      assertThat(recording.channels()).hasSize(channels);
      assertThat(recording.channels().get(0).timeBase()).isEqualTo(new TimeBase(390_625, 8));
      for (int c = 0; c < channels; c++) {
        assertSamples(recording, c, first + c, factor, 0);
      }
    }
  }

  @Test
  void aTimeSeriesBringsItsRateItsUnitAndItsConversion() throws IOException {
    try (Recording recording =
        RecordingReaders.open(
            file("hdf/series.nwb"), ReadOptions.defaults().withVariable("acquisition/needle"))) {
      assertThat(recording.format()).isEqualTo("NWB");
      Channel channel = recording.channels().get(1);
      assertThat(channel.timeBase()).isEqualTo(new TimeBase(390_625, 8));
      assertThat(channel.calibration()).isEqualTo(Channel.Calibration.MICROVOLT);
      assertThat(channel.resolutionUv()).isCloseTo(0.25, within(1e-12));
      assertSamples(recording, 0, 0, 0.25, 1);
      assertSamples(recording, 1, 1, 0.25, 1);
    }
  }

  @Test
  void timesOfATimeSeriesGiveItsRateAndItsGap() throws IOException {
    try (Recording recording =
        RecordingReaders.open(
            file("hdf/series.nwb"), ReadOptions.defaults().withVariable("acquisition/timed"))) {
      Channel channel = recording.channels().get(0);
      assertThat(channel.timeBase()).isEqualTo(new TimeBase(46_875, 2));
      assertThat(channel.segments()).extracting(Segment::firstSample).containsExactly(0L, 400L);
      assertThat(channel.segments().get(1).startS()).isCloseTo(400 / 23_437.5 + 0.75, within(1e-9));
      assertSamples(recording, 0, 0, 1e6, 0);
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"mat/plain.mat", "hdf/sets.h5", "hdf/series.nwb"})
  void ofSeveralArraysNoneIsGuessed(String name) {
    assertThatThrownBy(() -> RecordingReaders.open(file(name), RATE))
        .hasMessageContaining("give --variable as one of ")
        .hasMessageContaining(
            name.endsWith("nwb") ? "acquisition/timed (600, float)" : "emg (600 by 2, double)");
    assertThatThrownBy(() -> RecordingReaders.open(file(name), RATE.withVariable("nothing")))
        .hasMessageContaining("expected the variable nothing");
  }

  @Test
  void aRateThatIsNotDeclaredIsShownButNotTaken() {
    for (String name : new String[] {"mat/plain.mat", "hdf/sets.h5"}) {
      assertThatThrownBy(
              () -> RecordingReaders.open(file(name), ReadOptions.defaults().withVariable("emg")))
          .hasMessageContaining("fs = 48828.125")
          .hasMessageContaining("--sampling-rate-hz");
    }
    assertThatThrownBy(
            () ->
                RecordingReaders.open(
                    file("hdf/series.nwb"),
                    new ReadOptions(50_000.0, null).withVariable("acquisition/needle")))
        .hasMessageContaining("48828.125 Hz, as the file says");
  }

  @Test
  void equalSidesAreRefused() {
    assertThatThrownBy(
            () -> RecordingReaders.open(file("mat/plain.mat"), RATE.withVariable("square")))
        .hasMessageContaining("one longer side");
  }

  @Test
  void chunksThatWereNeverWrittenAreGapsAndNotZeros() throws IOException {
    try (Recording recording =
        RecordingReaders.open(file("hdf/holes.h5"), RATE.withVariable("emg"))) {
      for (Channel channel : recording.channels()) {
        assertThat(channel.segments()).extracting(Segment::firstSample).containsExactly(0L, 200L);
        assertThat(channel.segments().get(1).startS()).isCloseTo(300 / 48_828.125, within(1e-12));
        double[] samples = new double[500];
        recording.read(channel, 0, samples, 0, 500);
        for (int k = 0; k < 500; k++) {
          assertThat(samples[k]).isEqualTo(whole(channel.number() - 1, k < 200 ? k : k + 100));
        }
      }
      assertThat(recording.findings())
          .extracting(Finding::code)
          .contains(FindingCode.MISSING_SAMPLES);
    }
    try (Recording recording =
        RecordingReaders.open(file("hdf/holes.h5"), RATE.withVariable("flat"))) {
      assertThat(recording.channels().get(0).sampleCount()).isEqualTo(500);
    }
  }

  @Test
  void numbersThatAreNotAsProcessorsHaveThemAreNotListed() {
    assertThatThrownBy(() -> RecordingReaders.open(file("hdf/holes.h5"), RATE))
        .hasMessageContaining("2 arrays")
        .hasMessageNotContaining("odd");
  }

  @Test
  void aTimeSeriesStartsAfterTheSession() throws IOException {
    LocalDateTime session = LocalDateTime.of(2026, 11, 24, 10, 20, 30, 250_000_000);
    for (String name : new String[] {"rate-earliest", "rate-latest"}) {
      Path file = file("fuzz/hdf/" + name + ".nwb");
      try (Recording recording = RecordingReaders.open(file, ReadOptions.defaults())) {
        assertThat(recording.findStart()).contains(session.plusNanos(1_500_000_000));
      }
    }
    try (Recording recording =
        RecordingReaders.open(file("fuzz/hdf/times.nwb"), ReadOptions.defaults())) {
      assertThat(recording.findStart()).isEmpty();
    }
  }
}
