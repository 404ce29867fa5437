package org.lonefibre.benchmarks;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import org.lonefibre.formats.RecordingReaders;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.formats.writer.EdfPlusWriter;
import org.lonefibre.model.simulation.StudyScenario;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Recording;

/** A minute of a simulated voluntary site at 50 kHz in a file that goes when it is closed. */
final class SimulatedMinute implements AutoCloseable {

  /** Its length, in s. */
  static final int DURATION_S = 60;

  private final Path file;

  private SimulatedMinute(Path file) {
    this.file = file;
  }

  /**
   * Records the first site drawn, by rising seed, that has so many motor units near the needle.
   *
   * @param units 1 to 3
   */
  static SimulatedMinute record(int units) throws IOException {
    StudyScenario scenario = StudyScenario.defaults().withSites(1).withDurationS(DURATION_S);
    long seed = 1;
    while (scenario.draw(seed).sites().get(0).units().size() != units) {
      seed++;
    }
    Path file = Files.createTempFile("lonefibre-minute", ".edf");
    EdfPlusWriter.write(
        scenario.draw(seed).simulate(0), "X", LocalDateTime.of(2000, 1, 1, 0, 0), file);
    return new SimulatedMinute(file);
  }

  Recording open() throws IOException {
    return RecordingReaders.open(file, ReadOptions.defaults());
  }

  /** Number of samples of a channel. */
  static long samples(Channel channel) {
    return channel.segments().stream().mapToLong(segment -> segment.sampleCount()).sum();
  }

  @Override
  public void close() throws IOException {
    Files.deleteIfExists(file);
  }
}
