package org.lonefibre.app.recording;

import org.jspecify.annotations.Nullable;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.formats.reader.RawLayout;
import org.lonefibre.formats.reader.ReadOptions;
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

  @Option(
      names = "--variable",
      paramLabel = "NAME",
      description = "Which array of a file of several is the signal (MATLAB, HDF5, NWB).")
  private @Nullable String variable;

  @Option(
      names = "--raw",
      paramLabel = "TYPE",
      description =
          "The file is bare numbers: "
              + RawLayout.NAMES
              + "; with --raw-channels, --raw-offset-bytes and --sampling-rate-hz.")
  private @Nullable String raw;

  @Option(
      names = "--raw-channels",
      paramLabel = "N",
      description = "Channels of a file of bare numbers, which alternate.")
  private @Nullable Integer rawChannels;

  @Option(
      names = "--raw-offset-bytes",
      paramLabel = "BYTES",
      description = "Bytes before the first of the bare numbers.")
  private @Nullable Long rawOffsetBytes;

  @Option(
      names = "--sweep-rows",
      description =
          "Each row of a text is a sweep: the time of its cut in seconds, then its samples; with"
              + " --sampling-rate-hz.")
  private boolean sweepRows;

  @Option(
      names = "--sites-from-signal",
      description =
          "Divide a recording into sites by long pauses and movements of the needle, not by"
              + " annotations; inspect shows where.")
  private boolean sitesFromSignal;

  /** The door that opens files with what was said. */
  public RecordingDoor door() throws InputFault {
    ReadOptions.Rows rows = sweepRows ? ReadOptions.Rows.SWEEPS : ReadOptions.Rows.SAMPLES;
    try {
      return RecordingDoor.of(
          new ReadOptions(samplingRateHz, gainUvPerUnit, variable, layout(), rows),
          sitesFromSignal ? SiteBoundaries.SIGNAL : SiteBoundaries.ANNOTATIONS);
    } catch (IllegalArgumentException e) {
      throw new InputFault(
          "options",
          "",
          "a positive sampling rate and a gain other than 0",
          String.valueOf(e.getMessage()),
          "mend the option");
    }
  }

  private @Nullable RawLayout layout() throws InputFault {
    Integer channels = rawChannels;
    Long offset = rawOffsetBytes;
    if (raw == null) {
      if (channels != null || offset != null) {
        throw new InputFault(
            "--raw-channels, --raw-offset-bytes", "", "--raw beside them", "none", "add --raw");
      }
      return null;
    }
    if (channels == null || offset == null || samplingRateHz == null) {
      throw new InputFault(
          "--raw",
          "",
          "--raw-channels, --raw-offset-bytes and --sampling-rate-hz beside it",
          "not all of them",
          "give all: nothing of bare numbers is guessed");
    }
    try {
      return RawLayout.of(raw, channels, offset);
    } catch (IllegalArgumentException e) {
      throw new InputFault(
          "--raw", "", "a layout", String.valueOf(e.getMessage()), "mend the option");
    }
  }
}
