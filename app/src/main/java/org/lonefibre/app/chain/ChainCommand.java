package org.lonefibre.app.chain;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.chain.ChainResult;
import org.lonefibre.analysis.chain.ChainTest;
import org.lonefibre.analysis.chain.KeptChain;
import org.lonefibre.app.recording.ReadingOptions;
import org.lonefibre.app.terminal.DocumentJson;
import org.lonefibre.app.terminal.ExitCode;
import org.lonefibre.app.terminal.FaultLine;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.app.terminal.WholeFile;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Recording;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Tests the laboratory's machine and export with a signal of known intervals. */
@Command(
    name = "chain",
    description = {
      "Tests your own machine and export: --write makes a test signal of known intervals; play it, attenuated, into the amplifier, export what was recorded, and give the"
          + " export.",
      "True rate, filter, noise, smallest measurable jitter and every step that lost something are"
          + " reported; --out keeps them with the date."
    })
@SuppressWarnings("NullAway.Init")
public final class ChainCommand implements Callable<Integer> {

  private static final double LONGEST_S = 600;

  @Spec private CommandSpec spec;

  @Parameters(arity = "0..1", paramLabel = "EXPORT", description = "What was recorded.")
  private @Nullable Path export;

  @Option(
      names = "--write",
      paramLabel = "FILE",
      description = "Write the test signal: .wav to be played, .edf to be given to a program.")
  private @Nullable Path write;

  @Option(
      names = "--channel",
      paramLabel = "N",
      defaultValue = "1",
      description = "Number of the signal in the export, from 1; 1 if not given.")
  private int channel;

  @Option(names = "--out", paramLabel = "FILE.json", description = "Keep the result with its date.")
  private @Nullable Path out;

  @Mixin private ReadingOptions reading;

  @Override
  public Integer call() throws IOException {
    Path to = write;
    Path from = export;
    if ((to == null) == (from == null)) {
      throw new InputFault(
          "chain", "", "an export or --write FILE.wav", "both or neither", "name one");
    }
    if (to != null) {
      int rateHz = WrittenSignal.write(to);
      say(List.of("test signal written to " + to + ", " + rateHz + " Hz"));
    } else if (from != null) {
      measure(from);
    }
    return ExitCode.DONE.number();
  }

  private void measure(Path from) throws IOException {
    try (Recording recording = reading.door().open(from)) {
      List<Channel> channels = recording.channels();
      if (channel < 1 || channel > channels.size()) {
        throw new InputFault(
            from.toString(),
            "signal",
            "1 to " + channels.size(),
            String.valueOf(channel),
            "name another with --channel");
      }
      Channel signal = channels.get(channel - 1);
      if (signal.durationS() > LONGEST_S) {
        throw new InputFault(
            from.toString(),
            "signal " + channel,
            "at most 600 s",
            String.format(Locale.ROOT, "%.0f s", signal.durationS()),
            "export the test alone");
      }
      double[] samples = new double[Math.toIntExact(signal.sampleCount())];
      recording.read(signal, 0, samples, 0, samples.length);
      ChainResult result = result(from, signal, samples);
      String date = LocalDate.now(ZoneOffset.UTC).toString();
      Path keep = out;
      if (keep != null) {
        KeptChain kept =
            new KeptChain(
                KeptChain.SCHEMA, date, from.getFileName().toString(), signal.label(), result);
        WholeFile.write(keep, DocumentJson.bytes(kept));
      }
      say(lines(date, result));
    }
  }

  private static ChainResult result(Path from, Channel signal, double[] samples) throws InputFault {
    try {
      return new ChainTest()
          .measure(
              samples,
              signal.timeBase().samplingRateHz(),
              signal.resolutionUv(),
              signal.calibration());
    } catch (IllegalArgumentException e) {
      throw new InputFault(
          from.toString(),
          "signal",
          "the whole test signal",
          String.valueOf(e.getMessage()),
          "name the signal with --channel, or record again: the pulses must be the largest");
    }
  }

  private static List<String> lines(String date, ChainResult result) {
    List<String> lines = new ArrayList<>();
    lines.add("chain tested on " + date);
    lines.add(
        text(
            "  rate: %.3f Hz by the player's clock, declared %.3f Hz",
            result.trueRateHz(), result.declaredRateHz()));
    lines.add("  high-pass: " + corner(result.highPassHz(), result.highPassOrder()));
    lines.add("  low-pass: " + corner(result.lowPassHz(), result.lowPassOrder()));
    Double size = result.pulseUv();
    lines.add(
        text("  noise: %.3f %% of the largest tone", 100 * result.noiseRatio())
            + (size == null ? "" : text(", %.2f uV", size * result.noiseRatio())));
    lines.add(
        text("  step: %.4f %% of the largest tone", 100 * result.stepRatio())
            + (size == null ? "" : text(", %.3f uV", size * result.stepRatio())));
    lines.add(
        text(
            "  smallest measurable jitter: %.2f us (95 %%: %.2f to %.2f); sent %.2f us, found %.2f us"
                + " (MCD)",
            result.smallestJitterUs(),
            result.smallestJitterLowUs(),
            result.smallestJitterHighUs(),
            result.sentJitterUs(),
            result.foundJitterUs()));
    if (result.steps().isEmpty()) {
      lines.add("  no step was found that loses something");
    }
    result.steps().forEach(step -> lines.add("  " + step.text()));
    return lines;
  }

  private static String corner(@Nullable Double cornerHz, int order) {
    if (cornerHz == null) {
      return "none found";
    }
    return text("3 dB lost at %.0f Hz", cornerHz)
        + (order == 0 ? ", no simple filter" : ", order " + order);
  }

  private static String text(String pattern, Object... values) {
    return String.format(Locale.ROOT, pattern, values);
  }

  private void say(List<String> lines) {
    lines.forEach(line -> spec.commandLine().getOut().println(FaultLine.oneLine(line)));
    spec.commandLine().getOut().flush();
  }
}
