/**
 * The door to files: {@link org.lonefibre.app.recording.RecordingDoor} opens recordings, finds the
 * sites and stimuli that annotations name, and writes recordings.
 */
@NullMarked
package org.lonefibre.app.recording;

import org.jspecify.annotations.NullMarked;
