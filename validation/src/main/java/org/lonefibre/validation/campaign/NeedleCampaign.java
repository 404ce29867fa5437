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
import org.lonefibre.signal.random.RandomStream;

/** The same fibres before three needles and two filters. */
public final class NeedleCampaign implements GoalCampaign {

  private static final double HEALTHY_US = 14;
  private static final double FAILING_US = 24;
  private static final int STUDIES = 2000;
  private static final int SIGNALS = 20;
  private static final int RAISED = 3;

  /**
   * A needle, with the published limits of the extensor digitorum it would be held to.
   *
   * @param centreUs limit of the mean
   * @param singleUs limit of single signals
   */
  private record NeedleUnderTest(
      String name, ShapeFamily shapes, double centreUs, double singleUs) {}

  private record Cell(NeedleUnderTest needle, boolean healthy) {}

  private static final double[] HIGH_PASS_HZ = {500, 1000};

  private static final List<NeedleUnderTest> NEEDLES =
      List.of(
          new NeedleUnderTest("single-fibre", ShapeFamily.SOLVED_SINGLE_FIBRE, 35.4, 51.3),
          new NeedleUnderTest("concentric-small", ShapeFamily.SOLVED_CONCENTRIC_SMALL, 30, 43),
          new NeedleUnderTest(
              "concentric-standard", ShapeFamily.SOLVED_CONCENTRIC_STANDARD, 30, 43));

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
        healthy) or 24 us (38.3 us, above every centre limit used). Composite: another fibre of the unit within 400 us of either potential with a quarter of its size or more. Bias: measured over
        true jitter. Limits: extensor digitorum, 35.4 and 51.3 us (single-fibre, 40 years, Gilchrist et al. 1992, second-hand), 30 and 43 us (concentric, Stalberg et al. 2016, abstract).
        Studies: 2,000 of 20 signals each, drawn from the accepted ones; crossing: mean above the centre limit, or 3 of 20 above the other. Homogeneous muscle: shapes and ratios are the message.
        """;
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
        rows.add(
            row(group, "trade's rules", pairs.stream().filter(PairLook::byTradeRules).toList()));
        rows.add(
            row(
                group,
                "full grade",
                pairs.stream().filter(p -> p.byTradeRules() && p.byFullGrade()).toList()));
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
                + " Full grade: the trade's rules and no potential graded composite."));
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
    double n = Math.max(1, pairs.size());
    double mean = pairs.stream().mapToDouble(p -> p.measuredUs() / p.trueUs()).sum() / n;
    double square =
        pairs.stream().mapToDouble(p -> Math.pow(p.measuredUs() / p.trueUs() - mean, 2)).sum() / n;
    long composite = pairs.stream().filter(PairLook::isComposite).count();
    long above = pairs.stream().filter(p -> p.measuredUs() > cell.needle().singleUs()).count();
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
            pairs.size() < SIGNALS
                ? "too few"
                : IntervalCampaign.tenth(crossing(cell, pairs, group.seed()))));
  }

  private static double crossing(Cell cell, List<PairLook> pairs, long seed) {
    RandomStream random = RandomStream.of(seed).child("studies");
    int crossing = 0;
    for (int s = 0; s < STUDIES; s++) {
      double sum = 0;
      int raised = 0;
      for (int i = 0; i < SIGNALS; i++) {
        double jitter = pairs.get(random.below(pairs.size())).measuredUs();
        sum += jitter;
        raised += jitter > cell.needle().singleUs() ? 1 : 0;
      }
      crossing += sum / SIGNALS > cell.needle().centreUs() || raised >= RAISED ? 1 : 0;
    }
    return 100.0 * crossing / STUDIES;
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
