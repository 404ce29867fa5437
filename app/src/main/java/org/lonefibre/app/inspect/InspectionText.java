package org.lonefibre.app.inspect;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.lonefibre.app.terminal.FaultLine;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.Severity;

/** An inspected file in lines for a terminal; what came from the file cannot move the cursor. */
final class InspectionText {

  /** Lists longer than this are cut and counted; the document has all. */
  private static final int MOST_LISTED = 12;

  private static final int MOST_SIGNALS = 32;

  /** Text with fewer rows a second is more likely a list than a signal; engineering choice. */
  private static final double SIGNAL_HZ = 1000;

  private final List<String> lines = new ArrayList<>();

  private InspectionText() {}

  static List<String> lines(Inspection.File file) {
    InspectionText text = new InspectionText();
    text.head(file);
    text.channels(file);
    text.annotations(file);
    if (!file.channels().isEmpty()) {
      text.sites(file.sites());
    }
    text.findings("  ", file.findings());
    return text.lines;
  }

  private void add(String pattern, Object... values) {
    lines.add(FaultLine.oneLine(String.format(Locale.ROOT, pattern, values)));
  }

  private void head(Inspection.File file) {
    String start = file.start();
    add(
        "%s: %s, %s, %s, %s, %d bytes",
        file.file(),
        file.format(),
        start == null ? "start not told" : "started " + start.replace('T', ' '),
        seconds(file.durationS()),
        counted(file.channels().size(), "signal"),
        file.sizeBytes());
  }

  private void channels(Inspection.File file) {
    List<Inspection.Channel> channels = file.channels();
    if (channels.isEmpty()) {
      add("  no signals: nothing can be measured");
    }
    List<Finding> shared = shared(channels);
    for (Inspection.Channel channel : channels.subList(0, shown(channels))) {
      channel(channel, shared);
    }
    if (channels.size() > MOST_SIGNALS) {
      add("  and %d more signals; --json - lists all", channels.size() - MOST_SIGNALS);
    }
    if (!shared.isEmpty()) {
      add("  all signals:");
      findings("    ", shared);
    }
    if (file.format().equals("text")
        && channels.stream().anyMatch(channel -> channel.samplingRateHz() < SIGNAL_HZ)) {
      add(
          "  if each row is an interval, read it with the command intervals; if each is a sweep,"
              + " with --sweep-rows and --sampling-rate-hz");
    }
  }

  private static int shown(List<Inspection.Channel> channels) {
    return Math.min(MOST_SIGNALS, channels.size());
  }

  /** What is said of several signals in the same words is said once. */
  private static List<Finding> shared(List<Inspection.Channel> channels) {
    if (channels.size() < 2) {
      return List.of();
    }
    return channels.get(0).findings().stream()
        .filter(
            finding ->
                channels.stream()
                    .allMatch(
                        channel ->
                            channel.findings().stream().anyMatch(own -> isSame(own, finding))))
        .toList();
  }

  private static boolean isSame(Finding one, Finding other) {
    return one.code() == other.code() && one.text().equals(other.text());
  }

  private void channel(Inspection.Channel channel, List<Finding> shared) {
    Inspection.Amplitude amplitude = channel.amplitude();
    String unit = amplitude.unit().isBlank() ? "" : " " + amplitude.unit().strip();
    add(
        "  signal %d %s: %s, %s, %d samples, %s",
        channel.number(),
        channel.label().isBlank() ? "without label" : "\"" + channel.label().strip() + "\"",
        rate(channel),
        unit(channel),
        channel.samples(),
        seconds(channel.durationS()));
    add("    %s", amplitude(amplitude, unit));
    if (!channel.prefilter().isBlank()) {
      add("    filtered before: %s", channel.prefilter().strip());
    }
    if (!channel.gaps().isEmpty()) {
      add(
          "    %s, divided by gaps: %s",
          counted(channel.segments().size(), "segment"), stretches(channel.gaps()));
    }
    findings(
        "    ",
        channel.findings().stream()
            .filter(finding -> shared.stream().noneMatch(one -> isSame(one, finding)))
            .toList());
  }

  private static String amplitude(Inspection.Amplitude amplitude, String unit) {
    Double lowRail = amplitude.lowRail();
    Double highRail = amplitude.highRail();
    List<String> said = new ArrayList<>();
    if (amplitude.lowest() == null) {
      said.add("no samples");
    } else {
      said.add(
          "samples from "
              + number(amplitude.lowest())
              + " to "
              + number(amplitude.highest())
              + unit);
    }
    if (amplitude.step() != null) {
      said.add("step " + number(amplitude.step()) + unit);
    }
    if (lowRail != null && highRail != null) {
      said.add(
          "converter from "
              + number(lowRail)
              + " to "
              + number(highRail)
              + unit
              + (amplitude.samplesAtRails() == null
                  ? ""
                  : ", " + counted(amplitude.samplesAtRails(), "sample") + " at its ends"));
    } else {
      said.add(
          amplitude.step() == null
              ? "step and range of the converter not told"
              : "range of the converter not told");
    }
    return String.join(", ", said);
  }

  private static String unit(Inspection.Channel channel) {
    String written =
        channel.unit().isBlank() ? "no unit" : "unit \"" + channel.unit().strip() + "\"";
    return channel.calibration().equals("microvolt") ? written : written + " (not calibrated)";
  }

  private static String rate(Inspection.Channel channel) {
    Inspection.ExactRate exact = channel.exactRate();
    return exact.seconds() == 1
        ? exact.samples() + " Hz"
        : String.format(
            Locale.ROOT,
            "%s Hz (exactly %d samples in %d s)",
            number(channel.samplingRateHz()),
            exact.samples(),
            exact.seconds());
  }

  private static String stretches(List<Inspection.Stretch> stretches) {
    List<String> shown = new ArrayList<>();
    for (Inspection.Stretch stretch : stretches) {
      if (shown.size() == MOST_LISTED) {
        shown.add("and " + (stretches.size() - MOST_LISTED) + " more");
        break;
      }
      shown.add(seconds(stretch.startS()) + " to " + seconds(stretch.endS()));
    }
    return String.join("; ", shown);
  }

  private void annotations(Inspection.File file) {
    List<Annotation> annotations = file.annotations();
    if (annotations.isEmpty()) {
      return;
    }
    add(
        "  %s, of which %s a stimulus",
        counted(annotations.size(), "annotation"),
        file.stimulusAnnotations() == 1 ? "1 names" : file.stimulusAnnotations() + " name");
    annotations.stream()
        .limit(MOST_LISTED)
        .forEach(a -> add("    %s  \"%s\"", seconds(a.startS()), a.text()));
    if (annotations.size() > MOST_LISTED) {
      add("    and %d more", annotations.size() - MOST_LISTED);
    }
  }

  private void sites(List<Inspection.Site> sites) {
    for (Inspection.Site site : sites) {
      if (site.origin().equals("whole")) {
        add("  one site: the whole recording");
      } else {
        add(
            "  site \"%s\": %s to %s, by %s",
            site.name(), seconds(site.startS()), seconds(site.endS()), site.origin());
      }
    }
  }

  private void findings(String indent, List<Finding> findings) {
    for (Finding finding : findings) {
      add(
          "%s%s%s: %s",
          indent,
          finding.severity() == Severity.NOTE
              ? ""
              : finding.severity().name().toLowerCase(Locale.ROOT) + ", ",
          finding.code().code(),
          finding.text());
    }
  }

  private static String counted(long count, String noun) {
    return count + " " + noun + (count == 1 ? "" : "s");
  }

  /** Times below a second are given finer, so that a few samples are no zero. */
  private static String seconds(double timeS) {
    if (timeS != 0 && Math.abs(timeS) < 0.1) {
      return number(new BigDecimal(timeS).round(new MathContext(4)).doubleValue()) + " s";
    }
    return String.format(Locale.ROOT, "%.3f s", timeS);
  }

  private static String number(@Nullable Double value) {
    return value == null
        ? "unknown"
        : new BigDecimal(value).round(new MathContext(9)).stripTrailingZeros().toPlainString();
  }
}
