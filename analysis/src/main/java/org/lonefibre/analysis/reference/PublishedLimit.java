package org.lonefibre.analysis.reference;

import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Activation;

/**
 * One cell of a limit set, to be shown: published, or the laboratory's own.
 *
 * @param set identity of the set
 * @param setName its name
 * @param muscle muscle key
 * @param needles needle keys it holds for
 * @param activation voluntary or stimulated
 * @param fromAgeYears youngest age it holds from; null if not stated
 * @param centreStatistic {@code mean}, {@code median} or {@code none}
 * @param centreUs limit of the centre; null if the set has none
 * @param individualUs limit of a single signal; null if blank
 * @param outlierRule the rule for single signals in the words of the set
 * @param status how far the values may be trusted, and who confirmed them
 * @param use {@code on}, or {@value #OFF}
 * @param source literature
 * @param note what else is known; may be empty
 */
public record PublishedLimit(
    String set,
    String setName,
    String muscle,
    List<String> needles,
    Activation activation,
    @Nullable Integer fromAgeYears,
    String centreStatistic,
    @Nullable Double centreUs,
    @Nullable Double individualUs,
    String outlierRule,
    String status,
    String use,
    String source,
    String note) {

  /** What is said of a row from memory that nobody has confirmed. */
  public static final String OFF = "off: from memory: read the printed source, then confirm";

  /** Copies the needles. */
  public PublishedLimit {
    needles = List.copyOf(needles);
  }

  static PublishedLimit of(LimitRow row, String use) {
    return new PublishedLimit(
        row.setId(),
        row.setName(),
        row.muscle(),
        row.needles(),
        row.activation(),
        row.ageColumnYears() == null ? row.subjectsFromAgeYears() : row.ageColumnYears(),
        row.centreStatistic().name().toLowerCase(Locale.ROOT),
        row.centreUs(),
        row.individualUs(),
        row.outlierRule(),
        row.statusWords(),
        use,
        row.source(),
        row.note());
  }
}
