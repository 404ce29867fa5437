package org.lonefibre.workbench.site;

import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.Map;
import org.lonefibre.analysis.conditioning.Conditioner;
import org.lonefibre.analysis.conditioning.ConditioningSettings;
import org.lonefibre.analysis.settings.AnalysisSettings;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.formats.RecordingReaders;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.workbench.server.Refusal;
import org.lonefibre.workbench.study.Desk;

/**
 * The signals of the sites a person looks at, conditioned as they were for the measurement; the
 * last few stay open, fewer if they are long.
 */
final class OpenSites implements AutoCloseable {

  private static final int MOST = 4;

  /** Minima and maxima of about three hours at 50 kHz; the last site stays, however long. */
  private static final long MOST_BYTES = 64L << 20;

  private record Open(Recording recording, SiteTrace trace) {}

  private final Desk desk;
  private final LinkedHashMap<String, Open> open = new LinkedHashMap<>(8, 0.75f, true);

  OpenSites(Desk desk) {
    this.desk = desk;
  }

  synchronized SiteTrace trace(Examination result, int part, int number) throws IOException {
    RecordingResult site = Desk.site(result, part, number);
    String key =
        site.sha256()
            + "/"
            + site.channel()
            + "/"
            + site.startS()
            + "/"
            + site.endS()
            + "/"
            + result.settings().hash()
            + "/"
            + conditioning(result, part, site).highPassHz();
    Open found = open.get(key);
    if (found != null) {
      return found.trace();
    }
    var kept = desk.store().studies().findRecording(site.sha256());
    if (kept.isEmpty()) {
      throw new Refusal(
          409, "The recording of this site is not in the store: only its numbers are kept.");
    }
    Recording recording =
        RecordingReaders.open(desk.store().file(kept.get()), ReadOptions.defaults());
    try {
      SiteTrace trace = SiteTrace.of(conditioned(result, part, site, recording));
      open.put(key, new Open(recording, trace));
      while (open.size() > MOST || (open.size() > 1 && heldBytes() > MOST_BYTES)) {
        Map.Entry<String, Open> eldest = open.entrySet().iterator().next();
        eldest.getValue().recording().close();
        open.remove(eldest.getKey());
      }
      return trace;
    } catch (IOException | RuntimeException e) {
      if (!open.containsKey(key)) {
        recording.close();
      }
      throw e;
    }
  }

  private long heldBytes() {
    return open.values().stream().mapToLong(one -> one.trace().heldBytes()).sum();
  }

  private static org.lonefibre.analysis.conditioning.ConditionedSignal conditioned(
      Examination result, int part, RecordingResult site, Recording recording) throws IOException {
    Channel channel =
        recording.channels().stream()
            .filter(c -> c.label().equals(site.channel()))
            .findFirst()
            .orElseThrow(() -> new Refusal(409, "The recording has no signal of this label."));
    long first = -1;
    long end = -1;
    for (Segment segment : channel.segments()) {
      double from = channel.timeBase().positionSamples(site.startS() - segment.startS());
      double to = channel.timeBase().positionSamples(site.endS() - segment.startS());
      long low = segment.firstSample() + (long) Math.ceil(Math.max(0, from) - 1e-6);
      long high =
          segment.firstSample() + (long) Math.min(segment.sampleCount(), Math.ceil(to - 1e-6));
      if (high > low) {
        first = first < 0 ? low : first;
        end = high;
      }
    }
    if (first < 0) {
      throw new Refusal(409, "There is no signal in this site.");
    }
    return Conditioner.forShowing(conditioning(result, part, site))
        .condition(recording, channel, first, end);
  }

  /** As the site was measured, the high-pass that a person chose for it included. */
  private static ConditioningSettings conditioning(
      Examination result, int part, RecordingResult site) {
    ConditioningSettings usual =
        AnalysisSettings.defaultsFor(result.studies().get(part).needle()).conditioning();
    return site.conditioning() == null
        ? usual
        : usual.withHighPassHz(site.conditioning().highPassHz());
  }

  @Override
  public synchronized void close() throws IOException {
    for (Open one : open.values()) {
      one.recording().close();
    }
    open.clear();
  }
}
