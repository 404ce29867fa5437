package org.lonefibre.store.studies;

/**
 * A recording of a study.
 *
 * @param position its place in the study, from 1
 * @param sha256 its hash
 * @param fileName name it had when it came
 */
public record StudyFile(int position, String sha256, String fileName) {}
