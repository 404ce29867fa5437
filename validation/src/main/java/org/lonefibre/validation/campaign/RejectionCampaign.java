package org.lonefibre.validation.campaign;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Predicate;
import java.util.stream.IntStream;
import org.lonefibre.analysis.settings.AnalysisSettings;
import org.lonefibre.model.simulation.ShapeFamily;
import org.lonefibre.model.simulation.StudyPlan;
import org.lonefibre.model.simulation.StudyScenario;

/** Whether potentials of unsteady end-plates are rejected more often than those of steady ones. */
public final class RejectionCampaign implements GoalCampaign {

  /**
   * End-plates.
   *
   * @param blockingRatio share of those that block in 3 to 30 % and are 2.3 times as unsteady
   */
  private record EndPlates(String name, double deviationUs, double blockingRatio) {}

  private static final List<EndPlates> END_PLATES =
      List.of(
          new EndPlates("very steady, 10 us", 10, 0),
          new EndPlates("healthy, 17 us", 17, 0),
          new EndPlates("unsteady, 30 us", 30, 0),
          new EndPlates("very unsteady, 55 us", 55, 0),
          new EndPlates("failing, 20 us, six of ten block and have 46 us", 20, 0.6));

  private static final String WHY =
      """
      What moves in a composite is left in the other potentials of its unit when it is taken out, the more the larger the jitter: clean signals beside a composite could be rejected for it. It is allowed for since decision 0025. A pair is
      judged beside the fibres that arrive where its own trigger and its own paired potential do (decision 0056); before, pairs of a composite were counted as clean where another pair of the unit had an interval alike.
      """;

  private record Cell(String needle, ShapeFamily shapes) {}

  private static final List<Cell> CELLS =
      List.of(
          new Cell("single-fibre", ShapeFamily.SOLVED_SINGLE_FIBRE),
          new Cell("concentric-small", ShapeFamily.SOLVED_CONCENTRIC_SMALL));

  @Override
  public String name() {
    return "rejection";
  }

  @Override
  public String title() {
    return "Fair rejection: who is thrown away";
  }

  @Override
  public String introduction() {
    return """
        Sites of one unit with steady, unsteady and failing end-plates (median SD as said), half of them with a second fibre 80 to 450 us from a potential, before two solved needles, through the
        whole chain. A judgement that rejects unsteady signals more than steady ones would make patients look healthy. Counted are pairs of two lone fibres (clean: no other fibre of the unit within
        500 us with a tenth of the size), of composites (another fibre within 400 us with a quarter of the size), apart from those whose second fibre is measured as a potential of its own, and of what lies between, by the true jitter of the two end-plates. Trade: a potential fails the rules of thumb. Ours: the trade's rules passed, but one
        graded composite. Goal: the full grade rejects clean signals of raised jitter at most 5 percentage points more than steady clean ones of 20 to 45 us;
        two standard errors of that difference stand beside it. Mean: measured over true jitter of what is kept.
        """;
  }

  @Override
  public int usualTrials() {
    return 120;
  }

  @Override
  public int cells() {
    return CELLS.size();
  }

  @Override
  public List<GoalTable> run(long seed, int trials, Runnable step) {
    List<GoalRow> rows = new ArrayList<>();
    List<GoalRow> verdicts = new ArrayList<>();
    List<GoalFigure> figures = new ArrayList<>();
    for (Cell cell : CELLS) {
      List<PairLook> all = new ArrayList<>();
      for (int e = 0; e < END_PLATES.size(); e++) {
        int which = e;
        List<PairLook> looks =
            IntStream.range(0, trials)
                .parallel()
                .mapToObj(trial -> looks(cell, which, seed, trial))
                .flatMap(List::stream)
                .toList();
        all.addAll(looks);
        verdicts.add(verdict(cell, END_PLATES.get(e).name(), looks, seed));
      }
      RejectionBins bins = new RejectionBins(cell.needle(), all);
      rows.addAll(bins.listRows());
      figures.add(bins.figure());
      step.run();
    }
    return List.of(
        new GoalTable("Rate of rejection by true jitter", RejectionBins.HEADS, rows, WHY, figures),
        new GoalTable(
            "What it does to the study",
            List.of(
                "needle",
                "end-plates",
                "signals",
                "true mean us",
                "mean, all us",
                "mean, trade us",
                "mean, ours us",
                "kept, trade %",
                "kept, ours %",
                "crossing, all %",
                "crossing, trade %",
                "crossing, ours %"),
            verdicts,
            "Means of all signals of a condition, composites included, as a study of many signals"
                + " would have them; true mean: of all found.\n\n"
                + DrawnStudies.source()));
  }

  private static GoalRow verdict(Cell cell, String endPlates, List<PairLook> looks, long seed) {
    DrawnStudies studies = DrawnStudies.heldTo(cell.needle(), seed);
    List<PairLook> trade = looks.stream().filter(PairLook::byTradeRules).toList();
    List<PairLook> ours = trade.stream().filter(PairLook::byFullGrade).toList();
    List<String> cells = new ArrayList<>();
    cells.add(cell.needle());
    cells.add(endPlates);
    cells.add(Integer.toString(looks.size()));
    cells.add(
        IntervalCampaign.tenth(looks.stream().mapToDouble(PairLook::trueUs).average().orElse(0)));
    List<List<PairLook>> groups = List.of(looks, trade, ours);
    groups.forEach(group -> cells.add(mean(group)));
    cells.add(IntervalCampaign.tenth(percent(looks, PairLook::byTradeRules)));
    cells.add(IntervalCampaign.tenth(percent(looks, p -> p.byTradeRules() && p.byFullGrade())));
    groups.forEach(group -> cells.add(studies.crossing(group)));
    return GoalRow.told(cells);
  }

  private static String mean(List<PairLook> looks) {
    return looks.isEmpty()
        ? "none"
        : String.format(
            Locale.ROOT,
            "%.1f",
            looks.stream().mapToDouble(PairLook::measuredUs).average().orElse(0));
  }

  static double percent(List<PairLook> pairs, Predicate<PairLook> which) {
    return 100.0 * pairs.stream().filter(which).count() / Math.max(1, pairs.size());
  }

  private static List<PairLook> looks(Cell cell, int endPlates, long seed, int trial) {
    EndPlates plates = END_PLATES.get(endPlates);
    StudyPlan plan =
        StudyScenario.defaults()
            .withShapes(cell.shapes())
            .withExtraUnitsRatio(0)
            .withShares(0, plates.blockingRatio(), 0.5, 0)
            .withEndPlateDeviationUs(plates.deviationUs())
            .withSites(1)
            .draw(seed * 1_000_000 + endPlates * 100_000L + trial);
    return PairLook.of(plan.simulate(0), AnalysisSettings.defaultsFor(cell.needle()));
  }

  @Override
  public String replay(long seed, int cell, int trial) {
    if (cell < 0 || cell >= CELLS.size()) {
      throw new IllegalArgumentException(
          "no cell " + cell + "; cells are 0 to " + (CELLS.size() - 1));
    }
    StringBuilder text = new StringBuilder();
    for (int e = 0; e < END_PLATES.size(); e++) {
      text.append(END_PLATES.get(e).name()).append(": ");
      text.append(looks(CELLS.get(cell), e, seed, trial)).append('\n');
    }
    return text.toString();
  }
}
