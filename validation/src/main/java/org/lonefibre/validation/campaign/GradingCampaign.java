package org.lonefibre.validation.campaign;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import org.lonefibre.analysis.grading.Grade;
import org.lonefibre.analysis.grading.GradedPotential;
import org.lonefibre.model.simulation.ShapeFamily;
import org.lonefibre.validation.cases.OneFibreTrial;
import org.lonefibre.validation.cases.OneFibreTrial.Condition;
import org.lonefibre.validation.cases.OneFibreTrial.Outcome;
import org.lonefibre.validation.cases.OneFibreTrial.Second;

/** Whether potentials of one fibre are told from those of two. */
public final class GradingCampaign implements GoalCampaign {

  private static final double NOT_GIVEN = 0.5;
  private static final int BINS = 5;

  private record Cell(ShapeFamily shapes, double snr, boolean hard) {

    String named() {
      return String.format(
          Locale.ROOT,
          "%s, SNR %.0f%s",
          shapes.name().toLowerCase(Locale.ROOT).replace('_', ' '),
          snr,
          hard ? ", hard" : "");
    }
  }

  private static final List<Cell> CELLS = listCells();

  private static List<Cell> listCells() {
    List<Cell> cells = new ArrayList<>();
    for (double[] snrs : new double[][] {{20, 10}, {100}}) {
      for (ShapeFamily shapes :
          List.of(
              ShapeFamily.SOLVED_SINGLE_FIBRE,
              ShapeFamily.QUARTIC_SURFACE,
              ShapeFamily.SOLVED_CONCENTRIC_STANDARD)) {
        for (boolean hard : new boolean[] {false, true}) {
          for (double snr : snrs) {
            cells.add(new Cell(shapes, snr, hard));
          }
        }
      }
    }
    return cells;
  }

  /** What a judgement said: probability of two fibres by ours, by the rules of thumb. */
  private record Said(
      boolean found, double composite, double byRules, Grade grade, boolean byRulesSingle) {

    static Said of(Outcome outcome) {
      GradedPotential graded = outcome.graded();
      if (graded == null || graded.singleFibreProbability() == null) {
        return new Said(false, NOT_GIVEN, NOT_GIVEN, Grade.UNGRADED, false);
      }
      double byRules =
          switch (graded.gradeByTradeRules()) {
            case SINGLE_FIBRE -> 0;
            case DOUBTFUL, UNGRADED -> NOT_GIVEN;
            case COMPOSITE -> 1;
          };
      return new Said(
          true,
          1 - graded.singleFibreProbability(),
          byRules,
          graded.grade(),
          graded.gradeByTradeRules() == Grade.SINGLE_FIBRE);
    }
  }

  @Override
  public String name() {
    return "grading";
  }

  @Override
  public String title() {
    return "One fibre or two: is the judgement right";
  }

  @Override
  public String introduction() {
    return """
        Recordings of 62 discharges with a lone fibre and, 1 to 2.2 ms from it, a potential that a second fibre 50 to 400 us away may have joined, through the whole chain up to the judgement. Hard:
        amplitude varies by 6 %, width by 2 %, and 5 % of the sweeps hold a foreign potential. A potential that is not found, or not judged, counts 0.5. Two fibres that are measured as two potentials
        are not composite any more and are left out (column apart). The weights were fitted to other trials; nothing was ever fitted to the quartic surface (another wave, an averaging electrode) and
        the standard concentric needle. Rules: the rules of thumb alone.
        """;
  }

  @Override
  public int usualTrials() {
    return 300;
  }

  @Override
  public int cells() {
    return CELLS.size();
  }

  @Override
  public List<GoalTable> run(long seed, int trials, Runnable step) {
    List<GoalRow> areas = new ArrayList<>();
    List<GoalRow> grades = new ArrayList<>();
    double[][] bins = new double[BINS][3];
    for (Cell cell : CELLS) {
      List<Said> clean = said(cell, Second.NONE, seed, trials);
      List<Said> small = said(cell, Second.SMALL, seed, trials);
      List<Said> large = said(cell, Second.LARGE, seed, trials);
      addAreas(cell, trials, List.of(clean, small, large), areas);
      addGrades(cell, List.of(clean, small, large), grades);
      clean.forEach(one -> count(bins, one, false));
      // As many of two fibres as of one: a third of them small, as the weights were fitted.
      small.stream().limit(clean.size() / 3).forEach(one -> count(bins, one, true));
      large.stream().limit(2 * clean.size() / 3).forEach(one -> count(bins, one, true));
      step.run();
    }
    return List.of(
        new GoalTable(
            "How well two fibres are told from one",
            List.of(
                "condition", "second fibre", "trials", "apart", "not found", "AUC", "AUC by rules"),
            areas,
            ""),
        new GoalTable(
            "Grades at the shipped thresholds",
            List.of(
                "condition",
                "potentials",
                "single-fibre %",
                "doubtful or ungraded %",
                "composite %",
                "accepted by rules %"),
            grades,
            ""),
        new GoalTable(
            "Reliability of the probability of one fibre",
            List.of("said", "potentials", "mean said", "really one fibre"),
            reliability(bins),
            "All conditions together, as many potentials of one fibre as of two."));
  }

  @Override
  public String replay(long seed, int cell, int trial) {
    if (cell < 0 || cell >= CELLS.size()) {
      throw new IllegalArgumentException(
          "cell must be 0 to " + (CELLS.size() - 1) + ", found " + cell);
    }
    Cell wanted = CELLS.get(cell);
    StringBuilder text = new StringBuilder(wanted.named());
    for (Second second : Second.values()) {
      Outcome outcome =
          OneFibreTrial.run(
              new Condition(wanted.shapes(), wanted.snr(), wanted.hard(), second),
              seed * 10_000 + trial);
      GradedPotential graded = outcome.graded();
      text.append(
          String.format(
              Locale.ROOT,
              "%nsecond fibre %.2f, %.0f us: %s",
              outcome.sizeRatio(),
              outcome.sizeRatio() == 0 ? 0 : outcome.delayUs(),
              graded == null
                  ? "not found"
                  : graded.grade() + ", " + graded.singleFibreProbability()));
      if (graded != null) {
        graded.findings().forEach(finding -> text.append("\n  ").append(finding.text()));
      }
    }
    return text.toString();
  }

  private static List<Said> said(Cell cell, Second second, long seed, int trials) {
    Condition condition = new Condition(cell.shapes(), cell.snr(), cell.hard(), second);
    return IntStream.range(0, trials)
        .parallel()
        .mapToObj(trial -> OneFibreTrial.run(condition, seed * 10_000 + trial))
        .filter(outcome -> !outcome.apart())
        .map(Said::of)
        .toList();
  }

  private static void addAreas(Cell cell, int trials, List<List<Said>> said, List<GoalRow> rows) {
    for (int kind = 1; kind <= 2; kind++) {
      List<Said> two = said.get(kind);
      double area = area(values(said.get(0), false), values(two, false));
      double byRules = area(values(said.get(0), true), values(two, true));
      List<String> cells =
          List.of(
              cell.named(),
              kind == 1 ? "0.1 to 0.25" : "0.25 to 1",
              Integer.toString(trials),
              Integer.toString(trials - two.size()),
              Long.toString(two.stream().filter(one -> !one.found()).count()),
              String.format(Locale.ROOT, "%.3f", area),
              String.format(Locale.ROOT, "%.3f", byRules));
      double least = kind == 2 ? (cell.snr() > 15 ? 0.99 : 0.95) : cell.snr() > 15 ? 0.92 : 0;
      rows.add(
          least == 0
              ? GoalRow.told(cells)
              : GoalRow.within(cells, area, least, 1, String.format(Locale.ROOT, "%.2f", least)));
    }
  }

  private static double[] values(List<Said> said, boolean byRules) {
    return said.stream().mapToDouble(one -> byRules ? one.byRules() : one.composite()).toArray();
  }

  /** Probability that one of two fibres is thought so more than one of one fibre. */
  static double area(double[] clean, double[] composite) {
    double[] sorted = clean.clone();
    Arrays.sort(sorted);
    double sum = 0;
    for (double value : composite) {
      int below = 0;
      int alike = 0;
      for (double other : sorted) {
        below += other < value ? 1 : 0;
        alike += other == value ? 1 : 0;
      }
      sum += below + alike / 2.0;
    }
    return sum / Math.max(1, (double) clean.length * composite.length);
  }

  private static void addGrades(Cell cell, List<List<Said>> said, List<GoalRow> rows) {
    String[] names = {"one fibre", "second 0.1 to 0.25", "second 0.25 to 1"};
    for (int kind = 0; kind < names.length; kind++) {
      List<Said> all = said.get(kind);
      double single = percent(all, Grade.SINGLE_FIBRE);
      double composite = percent(all, Grade.COMPOSITE);
      List<String> cells =
          List.of(
              cell.named(),
              names[kind],
              String.format(Locale.ROOT, "%.1f", single),
              String.format(Locale.ROOT, "%.1f", Math.max(0, 100 - single - composite)),
              String.format(Locale.ROOT, "%.1f", composite),
              String.format(
                  Locale.ROOT,
                  "%.1f",
                  100.0 * all.stream().filter(Said::byRulesSingle).count() / all.size()));
      rows.add(
          switch (kind) {
            case 0 ->
                new GoalRow(
                    cells,
                    "single 90 % at least, composite 1 % at most",
                    single >= 90 && composite <= 1);
            case 2 -> GoalRow.within(cells, single, 0, 5, "single 5 % at most");
            default -> GoalRow.told(cells);
          });
    }
  }

  private static double percent(List<Said> said, Grade grade) {
    return 100.0 * said.stream().filter(one -> one.grade() == grade).count() / said.size();
  }

  private static void count(double[][] bins, Said said, boolean composite) {
    if (said.found()) {
      double single = 1 - said.composite();
      double[] bin = bins[(int) Math.min(BINS - 1, single * BINS)];
      bin[0]++;
      bin[1] += single;
      bin[2] += composite ? 0 : 1;
    }
  }

  private static List<GoalRow> reliability(double[][] bins) {
    List<GoalRow> rows = new ArrayList<>();
    for (int b = 0; b < BINS; b++) {
      double mean = bins[b][1] / Math.max(1, bins[b][0]);
      double real = bins[b][2] / Math.max(1, bins[b][0]);
      rows.add(
          GoalRow.within(
              List.of(
                  String.format(Locale.ROOT, "%.1f to %.1f", (double) b / BINS, (b + 1.0) / BINS),
                  String.format(Locale.ROOT, "%.0f", bins[b][0]),
                  String.format(Locale.ROOT, "%.3f", mean),
                  String.format(Locale.ROOT, "%.3f", real)),
              real,
              mean - 0.05,
              mean + 0.05,
              "within 0.05"));
    }
    return rows;
  }
}
