package org.lonefibre.model.simulation;

import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.lonefibre.model.electrode.Needle;
import org.lonefibre.model.leadfield.LeadFieldSettings;
import org.lonefibre.model.leadfield.LeadFieldSolver;
import org.lonefibre.model.leadfield.LeadTable;
import org.lonefibre.model.tissue.LeadField;
import org.lonefibre.model.tissue.Tissue;

/**
 * Lead tables of needles, solved once while the program runs: they depend on needle and medium
 * alone.
 *
 * <p>Thread rule: safe; two threads that ask at once may both solve.
 */
final class SolvedLeads {

  private record Question(Needle needle, Tissue tissue) {}

  private static final Map<Question, LeadField> SOLVED = new ConcurrentHashMap<>();

  private SolvedLeads() {}

  static LeadField of(Needle needle, Tissue tissue) {
    Question question = new Question(needle, tissue);
    LeadField kept = SOLVED.get(question);
    if (kept != null) {
      return kept;
    }
    // Not computeIfAbsent: solving works on all processors, which may come back here.
    LeadField solved =
        new LeadTable(
            new LeadFieldSolver().solve(needle, LeadFieldSettings.defaults().withTissue(tissue)));
    SOLVED.put(question, solved);
    return solved;
  }
}
