package org.lonefibre.workbench.site;

import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
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

  /** A minute and a half at 50 kHz. */
  private static final long LONG_SAMPLES = 1L << 22;

  private static final Logger LOG = Logger.getLogger("org.lonefibre.workbench");

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
      SiteTrace trace = trace(key, conditioned(result, part, site, recording));
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

  /**
   * The minima and maxima of a long site are kept beside the recordings: filtering takes seconds.
   */
  private SiteTrace trace(String key, ConditionedSignal signal) {
    if (signal.endSample() - signal.firstSample() < LONG_SAMPLES) {
      return SiteTrace.of(signal);
    }
    String name = "strip of " + key + " by " + desk.analyst().producer().version();
    return desk.store()
        .derived()
        .find(name)
        .flatMap(content -> SiteTrace.of(signal, content))
        .orElseGet(
            () -> {
              SiteTrace made = SiteTrace.of(signal);
              try {
                desk.store().derived().keep(name, made.content());
              } catch (IOException e) {
                LOG.log(Level.FINE, "the strip was not kept", e);
              }
              return made;
            });
  }

  private long heldBytes() {
    return open.values().stream().mapToLong(one -> one.trace().heldBytes()).sum();
  }

  private static ConditionedSignal conditioned(
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

  /** Reads the long sites of a study once, so that their strips are at hand. */
  void prepare(Examination result) throws IOException {
    for (int part = 0; part < result.studies().size(); part++) {
      List<RecordingResult> sites = result.studies().get(part).recordings();
      for (int number = 0; number < sites.size(); number++) {
        if (Thread.currentThread().isInterrupted()) {
          return;
        }
        if (sites.get(number).durationS() * sites.get(number).samplingRateHz() >= LONG_SAMPLES) {
          trace(result, part, number);
        }
      }
    }
  }

  @Override
  public synchronized void close() throws IOException {
    for (Open one : open.values()) {
      one.recording().close();
    }
    open.clear();
  }
}
