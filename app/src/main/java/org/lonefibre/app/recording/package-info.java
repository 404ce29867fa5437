/**
 * The door to files: {@link org.lonefibre.app.recording.RecordingDoor} opens recordings, finds the
 * sites and stimuli that annotations name, and writes recordings; {@link
 * org.lonefibre.app.recording.ReadingOptions} are the options with which a person says of a file
 * what it does not say itself.
 */
@NullMarked
package org.lonefibre.app.recording;

import org.jspecify.annotations.NullMarked;
