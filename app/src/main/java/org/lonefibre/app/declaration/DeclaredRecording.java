package org.lonefibre.app.declaration;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;

/**
 * One file, or one stretch of it, as declared.
 *
 * @param path the file
 * @param site name of the site; null to take that of an annotation or of the file
 * @param channel label or number of the channel; null if not given
 * @param stimulusChannel label or number of the channel that marks stimuli; null if not given
 * @param startS start of the stretch, in seconds since the start of the recording; null for its
 *     start
 * @param endS end of the stretch; null for its end
 */
public record DeclaredRecording(
    Path path,
    @Nullable String site,
    @Nullable String channel,
    @Nullable String stimulusChannel,
    @Nullable Double startS,
    @Nullable Double endS) {

  /** Whether a stretch is cut out by its times. */
  public boolean isCut() {
    return startS != null || endS != null;
  }
}
