package org.lonefibre.store.practice;

/**
 * What a person said of a recording with known truth.
 *
 * @param person who
 * @param round the round, from 1
 * @param number the case in the round, from 1
 * @param answeredAt UTC time, ISO 8601
 * @param kind what the case was
 * @param given the grade given
 * @param expected the grade that is true
 * @param scorePercent 0 to 100
 * @param content the whole answer, as JSON
 */
public record PracticeAnswer(
    String person,
    long round,
    int number,
    String answeredAt,
    String kind,
    String given,
    String expected,
    int scorePercent,
    String content) {}
