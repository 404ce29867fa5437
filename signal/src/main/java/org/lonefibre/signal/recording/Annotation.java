package org.lonefibre.signal.recording;

import org.jspecify.annotations.Nullable;

/**
 * A text with a time, as found in a file.
 *
 * @param startS time since the start of the recording, in seconds
 * @param durationS duration in seconds; null if the file gives none
 * @param text text as written; hostile text, escaped wherever it is shown
 */
public record Annotation(double startS, @Nullable Double durationS, String text) {}
