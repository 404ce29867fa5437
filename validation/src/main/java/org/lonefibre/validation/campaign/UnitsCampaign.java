package org.lonefibre.validation.campaign;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import org.lonefibre.analysis.SiteAnalyser;
import org.lonefibre.analysis.SiteRequest;
import org.lonefibre.analysis.settings.AnalysisSettings;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.model.simulation.SimulatedRecording;
import org.lonefibre.signal.random.RandomStream;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.validation.cases.Pitfall;
import org.lonefibre.validation.score.PitfallScore;
import org.lonefibre.validation.score.UnitsScore;
import org.lonefibre.validation.score.UnitsScorer;

/** Whether the units of hard recordings are kept apart, and blocks judged rightly. */
public final class UnitsCampaign implements GoalCampaign {

  private static final double FOUND_PERCENT = 95;
  private static final double SWAPPED_PERCENT = 1;
  private static final double FALSE_BLOCKS = 1;
  private static final double BLOCKS_PERCENT = 98;
  private static final double DROP_OUT_PERCENT = 90;
  private static final double HALF = 0.5;

  private static final List<UnitsSite> SITES = UnitsSite.listAll();

  @Override
  public String name() {
    return "units";
  }

  @Override
  public String title() {
    return "Units kept apart in hard recordings";
  }

  @Override
  public String introduction() {
    return """
        Sites of 8 s at 50 kHz, 6 to 12 uV of noise, three distant units, units of two or three fibres 500 us apart or more, end-plates of SD 12 to 25 us, through the whole chain. Found: a fibre with SNR over 5
        is a potential of a pair of which most sweeps are its own. Overlapped: sweeps in which a potential of another unit lies within 1.5 ms. Swapped: a sweep was measured at which those two
        fibres did not fire with that interval (150 us). False blocks: judged blocked though the fibre fired, for 10,000 judged sweeps; where a line has fewer, one false block is
        more than the goal allows. Invented: measured pairs of no two fibres, or of two fibres a second time.
        """;
  }

  @Override
  public int usualTrials() {
    return 40;
  }

  @Override
  public int cells() {
    return SITES.size() + 1;
  }

  @Override
  public List<GoalTable> run(long seed, int trials, Runnable step) {
    List<GoalRow> found = new ArrayList<>();
    List<GoalRow> swaps = new ArrayList<>();
    List<GoalRow> falseBlocks = new ArrayList<>();
    List<GoalRow> blocks = new ArrayList<>();
    for (UnitsSite site : SITES) {
      UnitsScore score =
          IntStream.range(0, trials)
              .parallel()
              .mapToObj(trial -> score(site, seed, trial))
              .reduce(UnitsScore.NONE, UnitsScore::plus);
      addRows(site.name(), score, List.of(found, swaps, falseBlocks, blocks));
      step.run();
    }
    GoalRow dropOut = dropOut(seed, trials);
    step.run();
    return List.of(
        new GoalTable(
            "Potentials found",
            List.of(
                "condition",
                "fibres",
                "found %",
                "discharges seen %",
                "overlapped %",
                "invented pairs"),
            found,
            ""),
        new GoalTable(
            "Sweeps given to the wrong unit",
            List.of("condition", "sweeps", "swapped %"),
            swaps,
            ""),
        new GoalTable(
            "False blocks",
            List.of("condition", "judged sweeps", "false blocks", "for 10,000"),
            falseBlocks,
            ""),
        new GoalTable("True blocks", List.of("condition", "true blocks", "found %"), blocks, ""),
        new GoalTable(
            "A component that drops out, half the size of its potential",
            List.of("condition", "sites", "seen %"),
            List.of(dropOut),
            ""));
  }

  private static void addRows(String name, UnitsScore score, List<List<GoalRow>> tables) {
    double foundPercent = percent(score.found(), score.fibres());
    tables
        .get(0)
        .add(
            GoalRow.within(
                List.of(
                    name,
                    Integer.toString(score.fibres()),
                    IntervalCampaign.tenth(foundPercent),
                    IntervalCampaign.tenth(percent(score.seen(), score.discharges())),
                    IntervalCampaign.tenth(percent(score.overlapped(), score.seen())),
                    Integer.toString(score.inventedPairs())),
                foundPercent,
                FOUND_PERCENT,
                100,
                "95 % at least"));
    double swapped = percent(score.swapped(), score.present());
    tables
        .get(1)
        .add(
            GoalRow.within(
                List.of(
                    name,
                    Integer.toString(score.present()),
                    String.format(Locale.ROOT, "%.2f", swapped)),
                swapped,
                0,
                SWAPPED_PERCENT,
                "under 1 %"));
    double wrong = 100 * percent(score.falseBlocks(), score.judged());
    tables
        .get(2)
        .add(
            GoalRow.within(
                List.of(
                    name,
                    Integer.toString(score.judged()),
                    Integer.toString(score.falseBlocks()),
                    IntervalCampaign.tenth(wrong)),
                wrong,
                0,
                FALSE_BLOCKS,
                "1 at most"));
    if (score.trueBlocks() > 0) {
      double seen = percent(score.foundBlocks(), score.trueBlocks());
      tables
          .get(3)
          .add(
              GoalRow.within(
                  List.of(name, Integer.toString(score.trueBlocks()), IntervalCampaign.tenth(seen)),
                  seen,
                  BLOCKS_PERCENT,
                  100,
                  "98 % at least"));
    }
  }

  private static double percent(int part, int whole) {
    return 100.0 * part / Math.max(1, whole);
  }

  private static UnitsScore score(UnitsSite site, long seed, int trial) {
    SimulatedRecording recording = site.simulate(stream(site.name(), seed, trial));
    return UnitsScorer.score(recording.truth(), result(recording));
  }

  private static RecordingResult result(SimulatedRecording recording) {
    try {
      return new SiteAnalyser(AnalysisSettings.defaultsFor("single-fibre"))
          .analyse(
              recording,
              SiteRequest.whole(recording.truth().file(), "", recording.channels().get(0), "site"));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static RandomStream stream(String name, long seed, int trial) {
    return RandomStream.of(seed).child(name).child(trial);
  }

  private static GoalRow dropOut(long seed, int trials) {
    int seen =
        (int)
            IntStream.range(0, trials)
                .parallel()
                .mapToObj(trial -> Pitfall.simulateDropOut(HALF, 1_000_000 * seed + trial))
                .filter(site -> PitfallScore.isRaised(FindingCode.COMPONENT_DROP_OUT, result(site)))
                .count();
    double share = percent(seen, trials);
    return GoalRow.within(
        List.of(
            "second fibre of half the size, 80 to 280 us away, blocks in 8 to 25 %",
            Integer.toString(trials), IntervalCampaign.tenth(share)),
        share,
        DROP_OUT_PERCENT,
        100,
        "90 % at least");
  }

  @Override
  public String replay(long seed, int cell, int trial) {
    if (cell < 0 || cell >= SITES.size()) {
      throw new IllegalArgumentException(
          "no cell " + cell + " to replay; cells are 0 to " + (SITES.size() - 1));
    }
    UnitsSite site = SITES.get(cell);
    return site + "\n" + score(site, seed, trial) + "\n";
  }
}
