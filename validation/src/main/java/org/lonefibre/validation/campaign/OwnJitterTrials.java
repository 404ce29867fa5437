package org.lonefibre.validation.campaign;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import org.lonefibre.analysis.interval.IntervalSeries;
import org.lonefibre.analysis.interval.SweepInterval;
import org.lonefibre.analysis.interval.SweepState;
import org.lonefibre.analysis.jitter.EndPlateJitters;
import org.lonefibre.analysis.jitter.FollowedPotential;
import org.lonefibre.analysis.jitter.JitterSettings;
import org.lonefibre.analysis.jitter.OwnJitter;
import org.lonefibre.analysis.jitter.UnitIntervals;
import org.lonefibre.signal.random.RandomStream;

/** Units of three and four potentials: each end-plate's own jitter and its interval. */
final class OwnJitterTrials {

  private static final double ERROR_US = 3;

  /**
   * A unit.
   *
   * @param sizes spread of each potential over that of the law, the trigger first
   */
  record Cell(IntervalLaw law, int differences, List<Double> sizes) {

    String key() {
      return "own/" + law + "/" + differences + "/" + sizes;
    }
  }

  private final EndPlateJitters separator = new EndPlateJitters(JitterSettings.defaults());

  List<Cell> listCells() {
    List<List<Double>> units =
        List.of(
            List.of(1.0, 1.0, 1.0),
            List.of(2.0, 1.0, 1.0),
            List.of(1.0, 3.0, 1.0),
            List.of(1.0, 1.0, 1.0, 1.0),
            List.of(1.0, 2.0, 0.7, 1.0, 1.0));
    List<Cell> cells = new ArrayList<>();
    for (IntervalLaw law : IntervalLaw.values()) {
      for (int n : new int[] {30, 50, 100, 200}) {
        units.forEach(sizes -> cells.add(new Cell(law, n, sizes)));
      }
    }
    return List.copyOf(cells);
  }

  GoalTable table(long seed, int trials, Runnable step) {
    List<GoalRow> rows = new ArrayList<>();
    for (Cell cell : listCells()) {
      List<Coverage> found = cover(cell, seed, trials);
      Coverage all = found.stream().reduce(Coverage.NONE, Coverage::plus);
      rows.add(
          judged(
              List.of(
                  cell.law().words(),
                  Integer.toString(cell.differences()),
                  String.join(", ", cell.sizes().stream().map(String::valueOf).toList()),
                  String.join(
                      ", ",
                      found.stream().map(c -> IntervalCampaign.tenth(c.holdsPercent())).toList()),
                  IntervalCampaign.tenth(all.holdsPercent()),
                  String.format(Locale.ROOT, "%.3f", all.meanRatio()),
                  IntervalCampaign.tenth(100 - all.valuePercent())),
              cell.law(),
              found));
      step.run();
    }
    return new GoalTable(
        "Each end-plate's own jitter, from three potentials or more",
        List.of(
            "law",
            "differences",
            "sizes",
            "holds %, each",
            "holds %, all",
            "value / truth",
            "no value %"),
        rows,
        "Sizes: spread of trigger and followers over SD 20 us. Arrival error 3 us each. An interval"
            + " without a lower end or value is held by its upper end. The goal is asked of each"
            + " potential.");
  }

  /** A row whose every potential must be held as often as its law asks. */
  private static GoalRow judged(List<String> cells, IntervalLaw law, List<Coverage> found) {
    GoalRow row = GoalRow.told(cells);
    for (Coverage each : found) {
      row = IntervalCampaign.judged(cells, law, each);
      if (Boolean.FALSE.equals(row.met())) {
        return row;
      }
    }
    return row;
  }

  /** Coverage of each potential. */
  List<Coverage> cover(Cell cell, long seed, int trials) {
    int potentials = cell.sizes().size();
    Coverage[] none = new Coverage[potentials];
    Arrays.fill(none, Coverage.NONE);
    Coverage[] sum =
        IntStream.range(0, trials)
            .parallel()
            .mapToObj(trial -> one(cell, IntervalCampaign.stream(cell.key(), seed, trial)))
            .reduce(none, OwnJitterTrials::plus);
    return List.of(sum);
  }

  private static Coverage[] plus(Coverage[] a, Coverage[] b) {
    Coverage[] sum = new Coverage[a.length];
    for (int i = 0; i < a.length; i++) {
      sum[i] = a[i].plus(b[i]);
    }
    return sum;
  }

  private Coverage[] one(Cell cell, RandomStream random) {
    int potentials = cell.sizes().size();
    int sweeps = cell.differences() + 1;
    List<List<SweepInterval>> series = new ArrayList<>();
    for (int p = 1; p < potentials; p++) {
      series.add(new ArrayList<>());
    }
    for (int sweep = 1; sweep <= sweeps; sweep++) {
      double trigger = latencyUs(cell, 0, random);
      for (int p = 1; p < potentials; p++) {
        double interval = 700.0 * p + latencyUs(cell, p, random) - trigger;
        series
            .get(p - 1)
            .add(
                new SweepInterval(
                    sweep,
                    0.1 * sweep,
                    interval,
                    ERROR_US * Math.sqrt(2),
                    SweepState.PRESENT,
                    sweep == 1 ? null : 100.0,
                    sweep > 1));
      }
    }
    List<FollowedPotential> followers = new ArrayList<>();
    for (int p = 1; p < potentials; p++) {
      followers.add(
          new FollowedPotential(
              "P" + p,
              new IntervalSeries(
                  IntervalSeries.Kind.INTER_POTENTIAL_INTERVAL, series.get(p - 1), 0),
              ERROR_US));
    }
    List<OwnJitter> found = separator.separate(new UnitIntervals("P0", ERROR_US, followers));
    Coverage[] coverage = new Coverage[potentials];
    for (int p = 0; p < potentials; p++) {
      OwnJitter own = found.get(p);
      coverage[p] =
          Coverage.of(
              own.jitterLowUs(),
              own.jitterUs(),
              own.jitterHighUs(),
              cell.sizes().get(p) * cell.law().jitterUs());
    }
    return coverage;
  }

  private static double latencyUs(Cell cell, int potential, RandomStream random) {
    return cell.sizes().get(potential) * cell.law().drawUs(random)
        + ERROR_US * random.gaussianRatio();
  }
}
