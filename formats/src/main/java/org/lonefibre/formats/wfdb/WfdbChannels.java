package org.lonefibre.formats.wfdb;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lonefibre.formats.reader.AmplitudeUnit;
import org.lonefibre.formats.reader.ChannelFindings;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.formats.reader.SampleRuns;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Channel.Calibration;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.TimeBase;

/** Makes channels of the signals of a record, and says which cannot be read. */
final class WfdbChannels {

  /** Unit where a header gives none (header(5)). */
  /** Beyond this no gain is one of a voltage; engineering choice. */
  private static final double MOST_UV_PER_STEP = 1e20;

  private static final String DEFAULT_UNIT = "mV";

  /** One channel once read: where its samples are, and which are there. */
  record Source(ChannelPieces pieces, SampleRuns runs) {}

  final List<Channel> channels = new ArrayList<>();
  final Map<Integer, Source> sources = new LinkedHashMap<>();
  final List<Finding> findings = new ArrayList<>();
  private final TimeBase frameRate;
  private final ReadOptions options;
  private final List<Integer> withoutUnit = new ArrayList<>();
  private final List<Integer> withoutGain = new ArrayList<>();
  private final List<Integer> inverted = new ArrayList<>();

  WfdbChannels(List<ChannelPieces> signals, TimeBase frameRate, ReadOptions options)
      throws IOException {
    this.frameRate = frameRate;
    this.options = options;
    for (int i = 0; i < signals.size(); i++) {
      add(i + 1, signals.get(i));
    }
    note(
        FindingCode.FORMAT_DEFAULT,
        withoutUnit,
        " states no unit; by the standard of the format it is millivolt.");
    note(
        FindingCode.FORMAT_DEFAULT,
        withoutGain,
        " states no gain. The 200 steps per mV that the standard of the format names are no"
            + " calibration: samples are converter steps until --gain-uv-per-unit tells what one is.");
    note(FindingCode.INVERTED_RANGE, inverted, " has a negative gain.");
    findings.addAll(ChannelFindings.list(channels));
  }

  private void note(FindingCode code, List<Integer> numbers, String text) {
    if (!numbers.isEmpty()) {
      String list = numbers.stream().map(String::valueOf).collect(Collectors.joining(", "));
      findings.add(Finding.note(code, "Channel " + list + text, Evidence.NONE));
    }
  }

  private void refuse(int number, String reason) {
    findings.add(
        Finding.exclusion(
            FindingCode.CHANNEL_REFUSED,
            "Channel " + number + " " + reason + "; it is left out.",
            Evidence.NONE));
  }

  /** Microvolts in a unit of a signal; empty if it is none of voltage, or the gain is missing. */
  private static OptionalDouble microvolts(WfdbSignalLine line) {
    return line.gain() == 0
        ? OptionalDouble.empty()
        : AmplitudeUnit.microvolts(line.unit().isEmpty() ? DEFAULT_UNIT : line.unit());
  }

  private void add(int number, ChannelPieces signal) throws IOException {
    if (signal.pieces.isEmpty()) {
      refuse(number, "has no samples");
      return;
    }
    WfdbSignalLine first = signal.pieces.get(0).line();
    int each = first.samplesPerFrame();
    boolean calibrated = microvolts(first).isPresent();
    for (ChannelPieces.Piece piece : signal.pieces) {
      WfdbSignalLine line = piece.line();
      boolean differs =
          !calibrated
              && (!line.unit().equals(first.unit()) || (line.gain() == 0) != (first.gain() == 0));
      if (line.samplesPerFrame() != each || microvolts(line).isPresent() != calibrated || differs) {
        refuse(
            number,
            "has another unit or rate in line " + line.fields().line + " of " + line.fields().file);
        return;
      }
    }
    if (signal.isTooBroken()) {
      refuse(number, "is interrupted more than " + SampleRuns.MOST_RUNS + " times");
      return;
    }
    Double told = options.gainUvPerUnit();
    double[] factors = new double[signal.pieces.size()];
    for (int p = 0; p < factors.length; p++) {
      WfdbSignalLine line = signal.pieces.get(p).line();
      double unit = told != null ? told : microvolts(line).orElse(1);
      factors[p] = line.gain() == 0 ? unit : unit / line.gain();
      if (!(Math.abs(factors[p]) <= MOST_UV_PER_STEP) || factors[p] == 0) {
        refuse(number, "cannot be scaled by a gain of " + line.gain());
        return;
      }
    }
    signal.scale(factors);
    if (first.gain() == 0) {
      withoutGain.add(number);
    } else if (first.unit().isEmpty()) {
      withoutUnit.add(number);
    }
    if (first.gain() < 0) {
      inverted.add(number);
    }
    boolean microvolt = told != null || calibrated;
    checkPieces(number, signal);
    SampleRuns runs = signal.runs.build();
    sources.put(number, new Source(signal, runs));
    channels.add(channel(number, signal, runs, first, microvolt, Rails.of(signal, factors)));
  }

  private Channel channel(
      int number,
      ChannelPieces signal,
      SampleRuns runs,
      WfdbSignalLine first,
      boolean microvolt,
      @Nullable Rails rails)
      throws IOException {
    TimeBase timeBase;
    try {
      timeBase =
          new TimeBase(
              Math.multiplyExact(frameRate.samples(), (long) first.samplesPerFrame()),
              frameRate.seconds());
    } catch (ArithmeticException e) {
      throw first
          .fields()
          .fault(
              "samples per frame",
              "a number that gives a usable rate",
              Integer.toString(first.samplesPerFrame()));
    }
    return new Channel(
        number,
        signal.first.label(),
        first.gain() == 0 ? "" : first.unit(),
        microvolt ? Calibration.MICROVOLT : Calibration.NONE,
        timeBase,
        runs.sampleCount(),
        runs.segments(timeBase),
        rails == null ? null : rails.low(),
        rails == null ? null : rails.high(),
        rails == null ? null : rails.step(),
        "");
  }

  /** What the samples say against the header. */
  private void checkPieces(int number, ChannelPieces signal) {
    long missing = 0;
    int wrong = 0;
    for (ChannelPieces.Piece piece : signal.pieces) {
      missing += piece.scan().missing();
      Integer declared = piece.line().checksum();
      if (declared != null && !piece.scan().fits(declared) && ++wrong == 1) {
        contradiction(
            "The checksum of channel "
                + number
                + " is "
                + declared
                + " in "
                + piece.line().fields().file
                + ", that of its samples "
                + piece.scan().checksum()
                + "; the samples are used as they are.");
      }
    }
    if (wrong > 1) {
      contradiction(
          "The checksum of channel " + number + " differs in " + (wrong - 1) + " more parts.");
    }
    if (missing > 0) {
      findings.add(
          Finding.caution(
              FindingCode.MISSING_SAMPLES,
              missing
                  + (missing == 1 ? " sample" : " samples")
                  + " of channel "
                  + number
                  + (missing == 1 ? " is" : " are")
                  + " marked as missing: a gap that no interval crosses.",
              Evidence.NONE));
    }
  }

  private void contradiction(String text) {
    findings.add(Finding.caution(FindingCode.HEADER_CONTRADICTION, text, Evidence.NONE));
  }
}
