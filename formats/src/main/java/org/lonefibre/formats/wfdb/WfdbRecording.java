package org.lonefibre.formats.wfdb;

import java.io.IOException;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import org.jspecify.annotations.Nullable;
import org.lonefibre.formats.reader.CheckedRecording;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.TimeBase;

/**
 * An open record. Its files are opened when they are read, since there may be thousands; the last
 * one stays open. Thread rule: reading from several threads is safe.
 */
final class WfdbRecording extends CheckedRecording {

  /** Rate where a header gives none (header(5)). */
  private static final TimeBase DEFAULT_RATE = new TimeBase(250, 1);

  private final String file;
  private final @Nullable LocalDateTime start;
  private final List<Channel> channels;
  private final Map<Integer, WfdbChannels.Source> sources;
  private final List<Annotation> annotations;
  private final List<Finding> findings = new ArrayList<>();
  private final AtomicReference<@Nullable OpenFiles> spare = new AtomicReference<>();

  WfdbRecording(WfdbHeader header, WfdbFolder folder, ReadOptions options) throws IOException {
    this.file = header.file();
    this.start = header.start();
    WfdbParts parts = new WfdbParts(header, folder);
    findings.addAll(parts.findings);
    TimeBase rate = rate(parts.rate, options);
    WfdbChannels found = new WfdbChannels(SignalSweep.sweep(parts), rate, options);
    this.channels = List.copyOf(found.channels);
    this.sources = Map.copyOf(found.sources);
    findings.addAll(found.findings);
    WfdbAnnotations read = new WfdbAnnotations(rate);
    this.annotations = read.beside(header, folder);
    findings.addAll(read.findings);
    if (header.isStartInvalid()) {
      findings.add(
          Finding.note(
              FindingCode.INVALID_DATE,
              "The date or time of the start is not valid; times count from the start.",
              Evidence.NONE));
    }
    if (!header.isTextValid()) {
      findings.add(
          Finding.note(
              FindingCode.TEXT_ENCODING,
              "The header is not valid UTF-8; it was read as Latin-1.",
              Evidence.NONE));
    }
  }

  private TimeBase rate(@Nullable TimeBase declared, ReadOptions options) {
    if (declared != null) {
      return declared;
    }
    Double told = options.samplingRateHz();
    if (told != null) {
      return TimeBase.ofHz(told);
    }
    findings.add(
        Finding.caution(
            FindingCode.FORMAT_DEFAULT,
            "The header gives no sampling rate; 250 Hz are used, as the standard of the format"
                + " says. Tell the rate with --sampling-rate-hz.",
            Evidence.NONE));
    return DEFAULT_RATE;
  }

  @Override
  public String format() {
    return "WFDB";
  }

  @Override
  public Optional<LocalDateTime> findStart() {
    return Optional.ofNullable(start);
  }

  @Override
  public List<Channel> channels() {
    return channels;
  }

  @Override
  public List<Annotation> annotations() {
    return annotations;
  }

  @Override
  public List<Finding> findings() {
    return List.copyOf(findings);
  }

  @Override
  protected String file() {
    return file;
  }

  @Override
  protected void copy(Channel own, long firstSample, double[] destination, int offset, int length)
      throws IOException {
    WfdbChannels.Source source = Objects.requireNonNull(sources.get(own.number()));
    OpenFiles kept = spare.getAndSet(null);
    OpenFiles files = kept == null ? new OpenFiles() : kept;
    boolean isRead = false;
    try {
      source
          .runs()
          .forEach(
              firstSample,
              length,
              (at, place, count) ->
                  source.pieces().read(files, at, destination, offset + place, count));
      isRead = true;
    } finally {
      // After a failure, as an interruption, the file may be closed.
      if (!isRead || !spare.compareAndSet(null, files)) {
        files.close();
      } else if (isClosed()) {
        release();
      }
    }
  }

  @Override
  protected void release() throws IOException {
    OpenFiles kept = spare.getAndSet(null);
    if (kept != null) {
      kept.close();
    }
  }
}
