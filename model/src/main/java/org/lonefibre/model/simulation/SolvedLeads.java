package org.lonefibre.model.simulation;

import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Function;
import org.lonefibre.model.electrode.Needle;
import org.lonefibre.model.fibre.IntracellularPotential;
import org.lonefibre.model.leadfield.LeadFieldSettings;
import org.lonefibre.model.leadfield.LeadFieldSolver;
import org.lonefibre.model.leadfield.LeadTable;
import org.lonefibre.model.leadfield.SolvedNeedle;
import org.lonefibre.model.motorunit.SampleMuscle;
import org.lonefibre.model.motorunit.SampleMuscleSettings;
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

  private static final Map<Question, SolvedNeedle> NEEDLES = new ConcurrentHashMap<>();
  private static final Map<Question, LeadField> TABLES = new ConcurrentHashMap<>();
  private static final Map<Question, SampleMuscle> MUSCLES = new ConcurrentHashMap<>();

  private SolvedLeads() {}

  /** The lead straight before the core. */
  static LeadField of(Needle needle, Tissue tissue) {
    return kept(TABLES, new Question(needle, tissue), q -> new LeadTable(solved(q)));
  }

  /** The lead anywhere about the needle, in a muscle of given settings. */
  static SampleMuscle muscle(
      Needle needle, Tissue tissue, IntracellularPotential wave, SampleMuscleSettings settings) {
    return kept(
            MUSCLES,
            new Question(needle, tissue),
            q -> new SampleMuscle(settings, solved(q), tissue, wave))
        .with(settings);
  }

  private static SolvedNeedle solved(Question question) {
    return kept(
        NEEDLES,
        question,
        q ->
            new LeadFieldSolver()
                .solve(q.needle(), LeadFieldSettings.defaults().withTissue(q.tissue())));
  }

  /** Not computeIfAbsent: solving works on all processors, which may come back here. */
  private static <T> T kept(Map<Question, T> all, Question question, Function<Question, T> solve) {
    T before = all.get(question);
    if (before != null) {
      return before;
    }
    T solved = solve.apply(question);
    all.put(question, solved);
    return solved;
  }
}
