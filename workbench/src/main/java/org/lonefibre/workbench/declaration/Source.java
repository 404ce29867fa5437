package org.lonefibre.workbench.declaration;

import org.jspecify.annotations.Nullable;

/**
 * A kept recording as declared.
 *
 * @param sha256 its hash in the store
 * @param fileName name it had
 * @param site name of the site; null to take that of an annotation or of the file
 * @param channel label or number of the signal; null if there is only one
 * @param stimulusChannel label or number of the signal that marks stimuli; null if none
 * @param startS start of the stretch; null for that of the recording
 * @param endS end of the stretch; null for that of the recording
 */
public record Source(
    String sha256,
    String fileName,
    @Nullable String site,
    @Nullable String channel,
    @Nullable String stimulusChannel,
    @Nullable Double startS,
    @Nullable Double endS) {}
