package org.lonefibre.workbench.study;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.lonefibre.analysis.controls.VolunteerStudies;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.report.document.AnalysisJson;
import org.lonefibre.store.Store;
import org.lonefibre.store.studies.KeptStudy;

/** The kept studies that are marked as of healthy volunteers. */
public final class Volunteers {

  /** The field that marks a study, with the value {@value #YES}. */
  public static final String FIELD = "healthy-volunteer";

  /** What the field says of a healthy volunteer. */
  public static final String YES = "yes";

  private Volunteers() {}

  /**
   * Controls from the automatic results of the marked studies, the earliest first. Second readings
   * and invented data do not count.
   *
   * @param wanted the version of the grading that must have accepted the signals
   */
  public static VolunteerStudies controls(Store store, VolunteerStudies.Wanted wanted)
      throws IOException {
    List<KeptStudy> marked = new ArrayList<>();
    for (KeptStudy study : store.studies().list("")) {
      if (YES.equals(store.studies().notes(study.id()).get(FIELD))
          && !study.provenance().equals("demo")
          && store.studies().findDocument(study.id(), Reading.KIND).isEmpty()) {
        marked.add(study);
      }
    }
    marked.sort(Comparator.comparing(KeptStudy::createdAt).thenComparing(KeptStudy::id));
    List<Examination> results = new ArrayList<>();
    for (KeptStudy study : marked) {
      String automatic = store.studies().findDocument(study.id(), Desk.AUTOMATIC).orElse("");
      if (!automatic.isEmpty()) {
        results.add(
            AnalysisJson.read("automatic result", automatic.getBytes(StandardCharsets.UTF_8)));
      }
    }
    return VolunteerStudies.of(results, wanted);
  }
}
