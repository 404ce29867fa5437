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

  private static final double[] BINS_US = {0, 20, 30, 45, 65, 90, Double.POSITIVE_INFINITY};
  private static final double[] DEVIATIONS_US = {10, 17, 30, 55};
  private static final double MORE_POINTS = 5;

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
        Sites with end-plates of median SD 10, 17, 30 and 55 us, half of them with a second fibre close by, before two solved needles, through the whole chain. A judgement that rejects unsteady
        signals more than steady ones would make patients look healthy. Counted are pairs of two lone fibres (clean: no other fibre within 500 us with a tenth of the size) and of
        composites, by the true jitter of the two end-plates. Trade: a potential fails the rules of thumb. Ours: the trade's rules passed, but one graded composite. Goal: the full grade rejects clean
        signals of raised jitter at most 5 percentage points more than those of 20 to 45 us. Mean: measured over true jitter of what is kept.
        """;
  }

  @Override
  public int usualTrials() {
    return 60;
  }

  @Override
  public int cells() {
    return CELLS.size();
  }

  @Override
  public List<GoalTable> run(long seed, int trials, Runnable step) {
    List<GoalRow> rows = new ArrayList<>();
    List<GoalRow> verdicts = new ArrayList<>();
    for (Cell cell : CELLS) {
      List<PairLook> all = new ArrayList<>();
      for (int d = 0; d < DEVIATIONS_US.length; d++) {
        int which = d;
        List<PairLook> looks =
            IntStream.range(0, trials)
                .parallel()
                .mapToObj(trial -> looks(cell, which, seed, trial))
                .flatMap(List::stream)
                .toList();
        all.addAll(looks);
        verdicts.add(verdict(cell, DEVIATIONS_US[d], looks));
      }
      addBins(cell, all, rows);
      step.run();
    }
    return List.of(
        new GoalTable(
            "Rate of rejection by true jitter",
            List.of(
                "needle",
                "pairs",
                "true jitter us",
                "number",
                "rejected by trade %",
                "rejected by ours beyond %",
                "mean kept by trade",
                "mean kept by ours"),
            rows,
            ""),
        new GoalTable(
            "What it does to the study",
            List.of(
                "needle",
                "end-plates, SD us",
                "true mean us",
                "mean, all us",
                "mean, trade us",
                "mean, ours us",
                "kept, trade %",
                "kept, ours %"),
            verdicts,
            "Means of all pairs of a condition, composites included, as a study of many signals"
                + " would have them; true mean: of all pairs found."));
  }

  private static void addBins(Cell cell, List<PairLook> all, List<GoalRow> rows) {
    for (boolean clean : new boolean[] {true, false}) {
      List<PairLook> usual =
          all.stream()
              .filter(p -> p.isClean() == clean && p.trueUs() >= 20 && p.trueUs() < 45)
              .toList();
      double base = oursBeyond(usual);
      for (int b = 0; b + 1 < BINS_US.length; b++) {
        double low = BINS_US[b];
        double high = BINS_US[b + 1];
        List<PairLook> bin =
            all.stream()
                .filter(p -> p.isClean() == clean && p.trueUs() >= low && p.trueUs() < high)
                .toList();
        if (bin.isEmpty()) {
          continue;
        }
        double ours = oursBeyond(bin);
        List<String> cells =
            List.of(
                cell.needle(),
                clean ? "clean" : "composite",
                Double.isInfinite(high)
                    ? String.format(Locale.ROOT, "from %.0f", low)
                    : String.format(Locale.ROOT, "%.0f to %.0f", low, high),
                Integer.toString(bin.size()),
                IntervalCampaign.tenth(percent(bin, p -> !p.byTradeRules())),
                IntervalCampaign.tenth(ours),
                ratio(bin, PairLook::byTradeRules),
                ratio(bin, p -> p.byTradeRules() && p.byFullGrade()));
        rows.add(
            clean && low >= 45
                ? GoalRow.within(cells, ours - base, -100, MORE_POINTS, "at most 5 points more")
                : GoalRow.told(cells));
      }
    }
  }

  /** Of those that the trade's rules accept, how many the full grade calls composite. */
  private static double oursBeyond(List<PairLook> pairs) {
    List<PairLook> accepted = pairs.stream().filter(PairLook::byTradeRules).toList();
    return percent(accepted, p -> !p.byFullGrade());
  }

  private static double percent(List<PairLook> pairs, Predicate<PairLook> which) {
    return 100.0 * pairs.stream().filter(which).count() / Math.max(1, pairs.size());
  }

  private static String ratio(List<PairLook> pairs, Predicate<PairLook> kept) {
    List<PairLook> left = pairs.stream().filter(kept).toList();
    return left.isEmpty()
        ? "none"
        : String.format(
            Locale.ROOT,
            "%.2f",
            left.stream().mapToDouble(p -> p.measuredUs() / p.trueUs()).average().orElse(0));
  }

  private static GoalRow verdict(Cell cell, double deviationUs, List<PairLook> looks) {
    return GoalRow.told(
        List.of(
            cell.needle(),
            IntervalCampaign.whole(deviationUs),
            IntervalCampaign.tenth(
                looks.stream().mapToDouble(PairLook::trueUs).average().orElse(0)),
            mean(looks, p -> true),
            mean(looks, PairLook::byTradeRules),
            mean(looks, p -> p.byTradeRules() && p.byFullGrade()),
            IntervalCampaign.tenth(percent(looks, PairLook::byTradeRules)),
            IntervalCampaign.tenth(percent(looks, p -> p.byTradeRules() && p.byFullGrade()))));
  }

  private static String mean(List<PairLook> looks, Predicate<PairLook> kept) {
    return IntervalCampaign.tenth(
        looks.stream().filter(kept).mapToDouble(PairLook::measuredUs).average().orElse(0));
  }

  private static List<PairLook> looks(Cell cell, int deviation, long seed, int trial) {
    StudyPlan plan =
        StudyScenario.defaults()
            .withShapes(cell.shapes())
            .withExtraUnitsRatio(0)
            .withShares(0, 0, 0.5, 0)
            .withEndPlateDeviationUs(DEVIATIONS_US[deviation])
            .withSites(1)
            .draw(seed * 1_000_000 + deviation * 100_000L + trial);
    return PairLook.of(plan.simulate(0), AnalysisSettings.defaultsFor(cell.needle()));
  }

  @Override
  public String replay(long seed, int cell, int trial) {
    if (cell < 0 || cell >= CELLS.size()) {
      throw new IllegalArgumentException(
          "no cell " + cell + "; cells are 0 to " + (CELLS.size() - 1));
    }
    StringBuilder text = new StringBuilder();
    for (int d = 0; d < DEVIATIONS_US.length; d++) {
      text.append(DEVIATIONS_US[d]).append(" us: ");
      text.append(looks(CELLS.get(cell), d, seed, trial)).append('\n');
    }
    return text.toString();
  }
}
