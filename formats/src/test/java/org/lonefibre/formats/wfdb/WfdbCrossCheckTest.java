package org.lonefibre.formats.wfdb;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.zip.GZIPInputStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lonefibre.formats.RecordingReaders;
import org.lonefibre.formats.SharedFolder;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.Recording;

/**
 * Records made by others against the decimal output of the reference programs, and against the
 * checksums in their headers.
 */
@Tag("crossCheck")
class WfdbCrossCheckTest {

  private static Recording open(String file) throws IOException {
    return RecordingReaders.open(SharedFolder.data().resolve(file), ReadOptions.defaults());
  }

  @Test
  void everySampleOfEveryFormatAgreesWithTheReferenceProgram() throws IOException {
    Path expected = SharedFolder.data().resolve("wfdb/expected/record-1f.gz");
    List<String> rows;
    try (BufferedReader in =
        new BufferedReader(
            new InputStreamReader(
                new GZIPInputStream(Files.newInputStream(expected)), StandardCharsets.US_ASCII))) {
      rows = in.lines().toList();
    }
    try (Recording recording = open("wfdb/binformats.hea")) {
      assertThat(recording.channels()).hasSize(10);
      assertThat(recording.findings())
          .extracting(Finding::code)
          .doesNotContain(FindingCode.HEADER_CONTRADICTION, FindingCode.RECORD_COUNT);
      for (Channel channel : recording.channels()) {
        assertThat(channel.sampleCount()).isEqualTo(499);
        double[] samples = new double[499];
        recording.read(channel, 0, samples, 0, samples.length);
        for (int k = 0; k < samples.length; k++) {
          String field = rows.get(k).strip().split("\\s+")[channel.number() - 1];
          assertThat(samples[k] * 200 / 1000)
              .as("channel %d, sample %d", channel.number(), k)
              .isEqualTo(Double.parseDouble(field), org.assertj.core.data.Offset.offset(1e-6));
        }
      }
    }
  }

  @ParameterizedTest
  @CsvSource({
    "emg_healthy, 50860, -333",
    "emg_myopathy, 110337, -50",
    "emg_neuropathy, 147858, 900"
  })
  void needleRecordsHaveTheirLengthFirstSampleAndChecksum(String name, long length, double first)
      throws IOException {
    try (Recording recording = open("needle-emg-4khz/" + name + ".hea")) {
      Channel channel = recording.channels().get(0);
      assertThat(channel.sampleCount()).isEqualTo(length);
      assertThat(channel.timeBase().samplingRateHz()).isEqualTo(4000);
      assertThat(channel.calibration()).isEqualTo(Channel.Calibration.MICROVOLT);
      double[] one = new double[1];
      recording.read(channel, 0, one, 0, 1);
      assertThat(one[0])
          .isEqualTo(first / 10_000 * 1000, org.assertj.core.data.Offset.offset(1e-9));
      assertThat(recording.findings())
          .extracting(Finding::code)
          .doesNotContain(FindingCode.HEADER_CONTRADICTION);
    }
  }
}
