package org.lonefibre.app.analyse;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.concurrent.RecursiveTask;
import org.lonefibre.analysis.SiteAnalyser;
import org.lonefibre.analysis.SiteRequest;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.signal.recording.Recording;

/** Analyses one site. */
@SuppressWarnings("serial")
final class SiteTask extends RecursiveTask<RecordingResult> {

  private final SiteAnalyser analyser;
  private final Recording recording;
  private final SiteRequest request;

  SiteTask(SiteAnalyser analyser, Recording recording, SiteRequest request) {
    this.analyser = analyser;
    this.recording = recording;
    this.request = request;
  }

  @Override
  protected RecordingResult compute() {
    try {
      return analyser.analyse(recording, request);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Waits for the result; a failure to read comes as what it was. */
  RecordingResult result() throws IOException {
    quietlyJoin();
    if (getException() instanceof UncheckedIOException unchecked && unchecked.getCause() != null) {
      throw unchecked.getCause();
    }
    return join();
  }
}
