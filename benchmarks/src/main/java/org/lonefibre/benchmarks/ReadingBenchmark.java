package org.lonefibre.benchmarks;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.lonefibre.formats.RecordingReaders;
import org.lonefibre.formats.reader.RawLayout;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Recording;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.TearDown;
import org.openjdk.jmh.annotations.Warmup;

/**
 * Opening a file and reading all samples to double, block by block, from a warm cache. The least of
 * the times in seconds is what {@code reading.sh} turns into MB/s, as it does with Python's.
 *
 * <ul>
 *   <li>With {@code lonefibre.reading} the files are written there and kept.
 *   <li>Thread rule: for one thread, on one core.
 * </ul>
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.SECONDS)
@Fork(
    value = 1,
    jvmArgs = {"-XX:ActiveProcessorCount=1", "-XX:+UseSerialGC", "-Xmx1g"})
@Warmup(iterations = 2, time = 2)
@Measurement(iterations = 5, time = 2)
public class ReadingBenchmark {

  private static final int BLOCK = 1 << 16;

  /** What is read. */
  @Param({"edf", "bdf", "wav", "wav-float", "raw", "wfdb", "mat", "mat-packed", "hdf", "text"})
  public String format;

  private final double[] block = new double[BLOCK];
  private Path folder;
  private Path file;
  private ReadOptions options;

  /** For the harness, which calls {@link #write} before anything else. */
  @SuppressWarnings("NullAway.Init")
  public ReadingBenchmark() {}

  /** Writes the file, which leaves it in the cache. */
  @Setup(Level.Trial)
  public void write() throws IOException {
    String kept = System.getProperty("lonefibre.reading");
    folder = kept == null ? Files.createTempDirectory("lonefibre-reading") : Path.of(kept);
    file = ReadingFiles.write(format, folder);
    ReadOptions rated = new ReadOptions(50_000.0, null);
    options = format.equals("raw") ? rated.withRaw(RawLayout.of("int16le", 1, 0)) : rated;
  }

  /** Removes the file unless it is to be kept. */
  @TearDown(Level.Trial)
  public void remove() throws IOException {
    if (System.getProperty("lonefibre.reading") == null) {
      try (Stream<Path> files = Files.list(folder)) {
        for (Path own : files.toList()) {
          Files.delete(own);
        }
      }
      Files.delete(folder);
    }
  }

  /** All samples of the first channel. */
  @Benchmark
  public double reading() throws IOException {
    double sum = 0;
    try (Recording recording = RecordingReaders.open(file, options)) {
      Channel channel = recording.channels().get(0);
      for (long at = 0; at < channel.sampleCount(); at += BLOCK) {
        int length = (int) Math.min(BLOCK, channel.sampleCount() - at);
        recording.read(channel, at, block, 0, length);
        sum += block[0];
      }
    }
    return sum;
  }
}
