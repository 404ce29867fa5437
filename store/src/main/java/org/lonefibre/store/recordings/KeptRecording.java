package org.lonefibre.store.recordings;

/**
 * A recording in the store.
 *
 * @param sha256 its hash, its name in the store
 * @param extension ending of its file name, with the dot; may be empty
 * @param sizeBytes its size
 */
public record KeptRecording(String sha256, String extension, long sizeBytes) {}
