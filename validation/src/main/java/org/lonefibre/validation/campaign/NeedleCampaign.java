package org.lonefibre.validation.campaign;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import org.lonefibre.analysis.settings.AnalysisSettings;
import org.lonefibre.model.motorunit.SampleMuscleSettings;
import org.lonefibre.model.simulation.ShapeFamily;
import org.lonefibre.model.simulation.SimulatedRecording;
import org.lonefibre.model.simulation.StudyPlan;
import org.lonefibre.model.simulation.StudyScenario;
import org.lonefibre.validation.campaign.GoalFigure.Ends;
import org.lonefibre.validation.campaign.GoalFigure.GoalCurve;

/** The same fibres before three needles and two filters. */
public final class NeedleCampaign implements GoalCampaign {

  private static final double HEALTHY_US = 14;
  private static final double FAILING_US = 24;
  private static final int CURVE_STEPS = 60;

  /**
   * A needle.
   *
   * @param usualHighPassHz the filter it is used with
   */
  private record NeedleUnderTest(String name, ShapeFamily shapes, double usualHighPassHz) {}

  private record Cell(NeedleUnderTest needle, boolean healthy) {}

  private static final double[] HIGH_PASS_HZ = {500, 1000};

  private static final List<NeedleUnderTest> NEEDLES =
      List.of(
          new NeedleUnderTest("single-fibre", ShapeFamily.SOLVED_SINGLE_FIBRE, 500),
          new NeedleUnderTest("concentric-small", ShapeFamily.SOLVED_CONCENTRIC_SMALL, 1000),
          new NeedleUnderTest("concentric-standard", ShapeFamily.SOLVED_CONCENTRIC_STANDARD, 1000));

  @Override
  public String name() {
    return "needles";
  }

  @Override
  public String title() {
    return "What the needle changes";
  }

  @Override
  public String introduction() {
    return """
        One sample muscle (209 fibres a unit, six units), the same fibres with the same arrivals before three solved needles (ideal metal), each needle 0.06 to 0.2 mm
        before the same fibre; 8 s at 50 kHz, through the whole chain with a 500 Hz and a 1 kHz high-pass. All end-plates of a muscle are alike: SD 14 us (a pair: 22.4 us,
        healthy) or 24 us (38.3 us, above every centre limit used). Composite: another fibre of the unit within 400 us of either potential with a quarter of its size or more that is not measured as a potential of its own.
        Bias: measured over true jitter. Homogeneous muscle: shapes and ratios are the message.
        """
        + DrawnStudies.source();
  }

  @Override
  public int usualTrials() {
    return 40;
  }

  @Override
  public int cells() {
    return listCells().size();
  }

  private static List<Cell> listCells() {
    List<Cell> cells = new ArrayList<>();
    for (boolean healthy : new boolean[] {true, false}) {
      for (NeedleUnderTest needle : NEEDLES) {
        cells.add(new Cell(needle, healthy));
      }
    }
    return cells;
  }

  @Override
  public List<GoalTable> run(long seed, int trials, Runnable step) {
    List<GoalRow> rows = new ArrayList<>();
    List<GoalCurve> biases = new ArrayList<>();
    for (Cell cell : listCells()) {
      List<List<List<PairLook>>> looks =
          IntStream.range(0, trials)
              .parallel()
              .mapToObj(trial -> looks(cell, seed, trial))
              .toList();
      for (int f = 0; f < HIGH_PASS_HZ.length; f++) {
        int filter = f;
        List<PairLook> pairs = looks.stream().flatMap(l -> l.get(filter).stream()).toList();
        Group group = new Group(cell, HIGH_PASS_HZ[f], trials, seed);
        rows.add(row(group, "none", pairs));
        List<PairLook> accepted = pairs.stream().filter(PairLook::byTradeRules).toList();
        rows.add(row(group, "trade's rules", accepted));
        if (cell.healthy() && HIGH_PASS_HZ[f] == cell.needle().usualHighPassHz()) {
          biases.add(bias(cell.needle(), accepted));
        }
        rows.add(
            row(group, "full grade", accepted.stream().filter(PairLook::byFullGrade).toList()));
      }
      step.run();
    }
    return List.of(
        new GoalTable(
            "Composites, bias and crossings",
            List.of(
                "muscle",
                "needle",
                "high-pass Hz",
                "accepted by",
                "signals",
                "signals a site",
                "composite %",
                "mean bias",
                "SD of bias",
                "above single limit %",
                "studies crossing %"),
            rows,
            "Crossing in the healthy muscle is a false alarm; not crossing in the other is a miss."
                + " Full grade: the trade's rules and no potential graded composite.",
            List.of(
                new GoalFigure(
                    "bias",
                    "Signals that the trade's rules accept, healthy muscle",
                    "measured over true jitter",
                    new Ends(0.25, 4, true),
                    "signals measured lower, %",
                    new Ends(0, 100, false),
                    biases))));
  }

  /** How many signals are measured at up to each share of their true jitter. */
  private static GoalCurve bias(NeedleUnderTest needle, List<PairLook> pairs) {
    List<Double> across = new ArrayList<>();
    List<Double> up = new ArrayList<>();
    for (int k = -CURVE_STEPS; k <= CURVE_STEPS; k++) {
      double ratio = Math.pow(4, (double) k / CURVE_STEPS);
      long lower = pairs.stream().filter(p -> p.measuredUs() < ratio * p.trueUs()).count();
      across.add(ratio);
      up.add(100.0 * lower / Math.max(1, pairs.size()));
    }
    return new GoalCurve(
        String.format(Locale.ROOT, "%s, %.0f Hz", needle.name(), needle.usualHighPassHz()),
        across,
        up);
  }

  /** Pairs of one site, by filter. */
  private static List<List<PairLook>> looks(Cell cell, long seed, int trial) {
    double deviationUs = cell.healthy() ? HEALTHY_US : FAILING_US;
    SampleMuscleSettings muscle =
        new SampleMuscleSettings(3.5, 209, 0, 0.1, 55, 8, 20, 1.5, deviationUs, 0, 6, 8, 12);
    StudyPlan plan =
        StudyScenario.ofMuscle(muscle)
            .withShapes(cell.needle().shapes())
            .withSites(1)
            .draw(seed * 100_000 + trial);
    AnalysisSettings usual = AnalysisSettings.defaultsFor(cell.needle().name());
    SimulatedRecording recording = plan.simulate(0);
    List<List<PairLook>> byFilter = new ArrayList<>();
    for (double highPassHz : HIGH_PASS_HZ) {
      byFilter.add(
          PairLook.of(
              recording, usual.withConditioning(usual.conditioning().withHighPassHz(highPassHz))));
    }
    return byFilter;
  }

  /** What a line of the table is about. */
  private record Group(Cell cell, double highPassHz, int sites, long seed) {}

  private static GoalRow row(Group group, String by, List<PairLook> pairs) {
    Cell cell = group.cell();
    DrawnStudies studies = DrawnStudies.heldTo(cell.needle().name(), group.seed());
    double n = Math.max(1, pairs.size());
    double mean = pairs.stream().mapToDouble(p -> p.measuredUs() / p.trueUs()).sum() / n;
    double square =
        pairs.stream().mapToDouble(p -> Math.pow(p.measuredUs() / p.trueUs() - mean, 2)).sum() / n;
    long composite = pairs.stream().filter(p -> p.company() == PairLook.Company.HIDDEN).count();
    long above = pairs.stream().filter(p -> p.measuredUs() > studies.singleUs()).count();
    return GoalRow.told(
        List.of(
            cell.healthy() ? "healthy" : "failing",
            cell.needle().name(),
            IntervalCampaign.whole(group.highPassHz()),
            by,
            Integer.toString(pairs.size()),
            String.format(Locale.ROOT, "%.2f", (double) pairs.size() / group.sites()),
            IntervalCampaign.tenth(100 * composite / n),
            String.format(Locale.ROOT, "%.2f", mean),
            String.format(Locale.ROOT, "%.2f", Math.sqrt(square)),
            IntervalCampaign.tenth(100 * above / n),
            studies.crossing(pairs)));
  }

  @Override
  public String replay(long seed, int cell, int trial) {
    List<Cell> cells = listCells();
    if (cell < 0 || cell >= cells.size()) {
      throw new IllegalArgumentException(
          "no cell " + cell + "; cells are 0 to " + (cells.size() - 1));
    }
    return cells.get(cell) + "\n" + looks(cells.get(cell), seed, trial) + "\n";
  }
}
