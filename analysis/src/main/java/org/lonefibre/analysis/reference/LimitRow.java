package org.lonefibre.analysis.reference;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Activation;

/**
 * One cell of a published limit set: one muscle, one way of activation, one age column.
 *
 * @param setId identity of the set
 * @param setName its name
 * @param muscle muscle key, or {@value #FRONTALIS_AND_OCULI}
 * @param needles needle keys it holds for
 * @param needleSize whether the set states the size of a concentric needle
 * @param activation voluntary or stimulated
 * @param ageColumnYears age at the head of the column; null if the set has no age columns
 * @param subjectsFromAgeYears youngest age the set was collected with; null if not stated
 * @param subjectsBelowAgeYears age the subjects had not reached; null if not stated
 * @param centreStatistic what the centre limit is compared with
 * @param centreUs limit of the centre; null if the set has none
 * @param centreAbove how the centre exceeds its limit
 * @param individualUs limit of a single signal, exceeded by what is greater; null if blank
 * @param outliersOverPercent more than this many percent of signals raised or blocking is a
 *     criterion
 * @param outlierRule the same in the words of the set
 * @param highPassHz high-pass of the set; null if not stated
 * @param subjects number of subjects as stated; empty if not
 * @param signalsPerSubject signals a subject; null if not stated
 * @param status how far the values may be trusted
 * @param confirmation who read the printed source of a row from memory; empty if nobody did
 * @param source literature, or where the laboratory's own come from
 * @param note what else is known; may be empty
 */
record LimitRow(
    String setId,
    String setName,
    String muscle,
    List<String> needles,
    NeedleSize needleSize,
    Activation activation,
    @Nullable Integer ageColumnYears,
    @Nullable Integer subjectsFromAgeYears,
    @Nullable Integer subjectsBelowAgeYears,
    CentreStatistic centreStatistic,
    @Nullable Double centreUs,
    Exceeding centreAbove,
    @Nullable Double individualUs,
    int outliersOverPercent,
    String outlierRule,
    @Nullable Double highPassHz,
    String subjects,
    @Nullable Integer signalsPerSubject,
    Status status,
    String confirmation,
    String source,
    String note) {

  static final String FRONTALIS_AND_OCULI = "frontalis and orbicularis oculi pooled";

  /** Whether a set states the size of its concentric needle. */
  enum NeedleSize {
    /** It does, or there is only one. */
    STATED,
    /** It does not: the set is taken for both sizes, with a finding. */
    NOT_STATED
  }

  /** What the centre limit is compared with. */
  enum CentreStatistic {
    /** Mean of the jitters. */
    MEAN,
    /** Median of the jitters. */
    MEDIAN,
    /** The set has no limit of the centre. */
    NONE
  }

  /** How a value exceeds a limit. */
  enum Exceeding {
    /** By being greater. */
    GREATER,
    /** By being greater or equal. */
    GREATER_OR_EQUAL
  }

  /** How far the values may be trusted. */
  enum Status {
    /** Read in a stored abstract. */
    ABSTRACT("abstract"),
    /** Read in a table that republished them. */
    SECOND_HAND("second-hand"),
    /** Remembered, the source not opened: off until confirmed. */
    FROM_MEMORY("from memory"),
    /** From a file of the laboratory. */
    OWN("the laboratory's own");

    private final String words;

    Status(String words) {
      this.words = words;
    }

    /** As printed. */
    String words() {
      return words;
    }
  }

  /** Refuses a centre limit without a statistic, and the reverse. */
  LimitRow {
    needles = List.copyOf(needles);
    if ((centreUs == null) != (centreStatistic == CentreStatistic.NONE)) {
      throw new IllegalArgumentException(
          setId + ": centre limit " + centreUs + " us does not fit " + centreStatistic);
    }
  }

  /** How far the values may be trusted, in words. */
  String statusWords() {
    return confirmation.isEmpty() ? status.words() : status.words() + ", " + confirmation;
  }

  /** The same, its printed source read by somebody. */
  LimitRow confirmed(String words) {
    return new LimitRow(
        setId,
        setName,
        muscle,
        needles,
        needleSize,
        activation,
        ageColumnYears,
        subjectsFromAgeYears,
        subjectsBelowAgeYears,
        centreStatistic,
        centreUs,
        centreAbove,
        individualUs,
        outliersOverPercent,
        outlierRule,
        highPassHz,
        subjects,
        signalsPerSubject,
        status,
        words,
        source,
        note);
  }

  boolean fitsMuscle(String key) {
    return muscle.equals(key)
        || (muscle.equals(FRONTALIS_AND_OCULI)
            && (key.equals("frontalis") || key.equals("orbicularis oculi")));
  }

  boolean isCentreExceededBy(double valueUs) {
    Double limit = centreUs;
    return limit != null && (centreAbove == Exceeding.GREATER ? valueUs > limit : valueUs >= limit);
  }
}
