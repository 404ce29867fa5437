package org.lonefibre.analysis.study;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.chain.KeptChain;

/**
 * Everything one visit gave; the content of {@code analysis.json}.
 *
 * @param schema {@value #SCHEMA}
 * @param producedBy the program
 * @param createdAt UTC time, ISO 8601
 * @param settings the settings that made it
 * @param subject the person examined
 * @param visit the circumstances
 * @param studies the studies
 * @param refused files that were refused
 * @param chain the test of the machine and its export; null if none was named
 */
public record Examination(
    String schema,
    Producer producedBy,
    String createdAt,
    SettingsStamp settings,
    Subject subject,
    Visit visit,
    List<Study> studies,
    List<Refusal> refused,
    @Nullable KeptChain chain) {

  /** Name of the document. */
  public static final String SCHEMA = "lonefibre-analysis-1";

  /** Copies the lists. */
  public Examination {
    studies = List.copyOf(studies);
    refused = List.copyOf(refused);
  }
}
