package org.lonefibre.app.recording;

import org.jspecify.annotations.Nullable;
import org.lonefibre.app.terminal.InputFault;
import picocli.CommandLine.Option;

/**
 * The options that say of a file what it does not say itself; every command that reads has them.
 */
public final class ReadingOptions {

  @Option(
      names = "--sampling-rate-hz",
      paramLabel = "HZ",
      description = "Sampling rate of a file that does not tell it.")
  private @Nullable Double samplingRateHz;

  @Option(
      names = "--gain-uv-per-unit",
      paramLabel = "UV",
      description = "Microvolts in one unit of a file that does not say so.")
  private @Nullable Double gainUvPerUnit;

  /** The door that opens files with what was said. */
  public RecordingDoor door() throws InputFault {
    return RecordingDoor.of(samplingRateHz, gainUvPerUnit);
  }
}
