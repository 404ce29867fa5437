package org.lonefibre.app.inspect;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import org.lonefibre.analysis.conditioning.Conditioner;
import org.lonefibre.analysis.conditioning.ConditioningSettings;
import org.lonefibre.app.recording.FileHash;
import org.lonefibre.app.recording.RecordingDoor;
import org.lonefibre.app.recording.SiteBoundaries;
import org.lonefibre.app.terminal.FaultLine;
import org.lonefibre.formats.reader.SiteCutter.SiteStretch;
import org.lonefibre.report.figure.Figure;
import org.lonefibre.report.figure.RecordingFigure;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.Segment;

/** Looks at one file: what it declares, and once over its samples. Thread rule: safe. */
final class Inspector {

  /**
   * What was seen.
   *
   * @param file as documents say it
   * @param picture the signal as a figure
   */
  record Seen(Inspection.File file, Figure picture) {}

  private final RecordingDoor door;

  Inspector(RecordingDoor door) {
    this.door = door;
  }

  Seen inspect(Path path) throws IOException {
    String name = String.valueOf(path.getFileName());
    try (Recording recording = door.open(path)) {
      double durationS = recording.channels().stream().mapToDouble(Inspector::endS).max().orElse(0);
      List<Inspection.Channel> channels = new ArrayList<>();
      List<RecordingFigure.Strip> strips = new ArrayList<>();
      for (Channel channel : recording.channels()) {
        SignalScan scan = new SignalScan(recording, channel, durationS);
        strips.add(scan.strip(channel.number() + " " + FaultLine.oneLine(channel.label().strip())));
        channels.add(channel(recording, channel, scan));
      }
      Inspection.File file =
          new Inspection.File(
              name,
              FileHash.sha256(path),
              Files.size(path),
              recording.format(),
              recording.findStart().map(DateTimeFormatter.ISO_LOCAL_DATE_TIME::format).orElse(null),
              durationS,
              channels,
              recording.annotations(),
              door.listStimulusTimesS(recording).size(),
              sites(recording, durationS),
              recording.findings());
      return new Seen(file, RecordingFigure.draw(FaultLine.oneLine(name), durationS, strips));
    }
  }

  private static Inspection.Channel channel(Recording recording, Channel channel, SignalScan scan)
      throws IOException {
    List<Inspection.Stretch> segments = new ArrayList<>();
    List<Inspection.Stretch> gaps = new ArrayList<>();
    for (Segment segment : channel.segments()) {
      double endS = segment.startS() + channel.timeBase().timeS((double) segment.sampleCount());
      if (!segments.isEmpty()) {
        gaps.add(
            new Inspection.Stretch(segments.get(segments.size() - 1).endS(), segment.startS()));
      }
      segments.add(new Inspection.Stretch(segment.startS(), endS));
    }
    return new Inspection.Channel(
        channel.number(),
        channel.label(),
        channel.unit(),
        channel.calibration() == Channel.Calibration.MICROVOLT ? "microvolt" : "none",
        channel.timeBase().samplingRateHz(),
        new Inspection.ExactRate(channel.timeBase().samples(), channel.timeBase().seconds()),
        channel.sampleCount(),
        channel.durationS(),
        scan.amplitude(),
        channel.prefilter(),
        segments,
        gaps,
        conditioned(recording, channel));
  }

  /** What the analysis would notice; the missing unit is said of the file already. */
  private static List<Finding> conditioned(Recording recording, Channel channel)
      throws IOException {
    if (channel.sampleCount() == 0) {
      return List.of();
    }
    return new Conditioner(ConditioningSettings.defaults())
        .condition(recording, channel).findings().stream()
            .filter(finding -> finding.code() != FindingCode.UNCALIBRATED)
            .toList();
  }

  /** Sites; from the signal they are those of the first one. */
  private List<Inspection.Site> sites(Recording recording, double durationS) throws IOException {
    List<Inspection.Site> sites = new ArrayList<>();
    boolean fromSignal = door.boundaries() == SiteBoundaries.SIGNAL;
    List<SiteStretch> found =
        recording.channels().isEmpty()
            ? List.of()
            : door.listSites(recording, recording.channels().get(0));
    for (SiteStretch site : found) {
      if (site.startS() < durationS) {
        sites.add(
            new Inspection.Site(
                site.name(),
                site.startS(),
                Math.min(site.endS(), durationS),
                fromSignal ? "signal" : "annotation"));
      }
    }
    if (sites.isEmpty()) {
      sites.add(new Inspection.Site("", 0, durationS, "whole"));
    }
    return sites;
  }

  private static double endS(Channel channel) {
    double endS = 0;
    for (Segment segment : channel.segments()) {
      endS =
          Math.max(
              endS, segment.startS() + channel.timeBase().timeS((double) segment.sampleCount()));
    }
    return endS;
  }
}
