package org.lonefibre.analysis;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.signal.recording.Channel;

/**
 * One site to be analysed: a stretch of a channel.
 *
 * @param file name of the file, without folders
 * @param sha256 SHA-256 of the file, hexadecimal
 * @param channel the recorded channel
 * @param marker the channel that marks stimuli; null if none
 * @param stimulusTimesS times of annotated stimuli; empty if none
 * @param site name of the site
 * @param startS start of the stretch, in seconds since the start of the recording
 * @param endS its end; infinite for the end of the recording
 * @param activation how the muscle was made to contract
 */
public record SiteRequest(
    String file,
    String sha256,
    Channel channel,
    @Nullable Channel marker,
    List<Double> stimulusTimesS,
    String site,
    double startS,
    double endS,
    Activation activation) {

  /** Copies the times; refuses an empty stretch. */
  public SiteRequest {
    stimulusTimesS = List.copyOf(stimulusTimesS);
    if (!(startS >= 0 && endS > startS)) {
      throw new IllegalArgumentException(
          "a site needs 0 <= startS < endS, found " + startS + " and " + endS);
    }
  }

  /** A whole voluntary recording of one channel. */
  public static SiteRequest whole(String file, String sha256, Channel channel, String site) {
    return new SiteRequest(
        file,
        sha256,
        channel,
        null,
        List.of(),
        site,
        0,
        Double.POSITIVE_INFINITY,
        Activation.VOLUNTARY);
  }
}
