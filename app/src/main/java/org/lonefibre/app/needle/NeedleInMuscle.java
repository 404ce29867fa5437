package org.lonefibre.app.needle;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.TreeSet;
import org.lonefibre.model.fibre.Cable;
import org.lonefibre.model.fibre.FibrePotential;
import org.lonefibre.model.fibre.IntracellularPotential;
import org.lonefibre.model.fibre.NeedlePotentialSolver;
import org.lonefibre.model.fibre.NeedleResponse;
import org.lonefibre.model.fibre.Pickup;
import org.lonefibre.model.leadfield.SolvedNeedle;
import org.lonefibre.model.motorunit.MuscleBackground;
import org.lonefibre.model.motorunit.SampleMuscle;
import org.lonefibre.model.motorunit.SampleMuscleSettings;
import org.lonefibre.model.motorunit.SpikeCount;
import org.lonefibre.report.figure.Figure;
import org.lonefibre.report.html.FigurePage;
import org.lonefibre.signal.random.RandomStream;

/** A needle in a healthy sample muscle: fibres in a spike, background, and what a filter costs. */
final class NeedleInMuscle {

  private static final double LEAST_UV = 200;
  private static final int SPIKES = 150;
  private static final int MOST_FIBRES = 5;
  static final double BEYOND_MM = 0.5;
  private static final double BACKGROUND_S = 0.7;
  private static final int BACKGROUND_SITES = 4;

  /** An engineering choice: a fortieth of the smallest potential that is taken. */
  static final double TARGET_UV = 5;

  private static final double NEAR_MM = 0.1;
  private static final double STEP_US = 2;
  private static final double NOISE_TO_HZ = 10_000;
  private static final double[] CUTS_HZ = {
    0, 100, 200, 350, 500, 700, 1000, 1500, 2000, 2500, 3000, 4000, 5000
  };

  private NeedleInMuscle() {}

  /** The muscle about the needle of a question. */
  static SampleMuscle muscle(NeedleQuestion question, SolvedNeedle needle) {
    return new SampleMuscle(
        SampleMuscleSettings.healthy(),
        needle,
        question.settings().tissue(),
        IntracellularPotential.defaults());
  }

  static SpikeCount spikes(NeedleQuestion question, SampleMuscle muscle, double highPassHz) {
    return muscle.spikes(
        question.spikeShareRatio(), LEAST_UV, highPassHz, SPIKES, RandomStream.of(1));
  }

  private static List<MusclePart.Counted> counted(NeedleQuestion question, SampleMuscle muscle) {
    List<MusclePart.Counted> all = new ArrayList<>();
    for (double highPassHz : question.spikeHighPassesHz()) {
      SpikeCount count = spikes(question, muscle, highPassHz);
      all.add(
          new MusclePart.Counted(
              highPassHz, count.spikes(), shares(count), count.fibreDensityRatio()));
    }
    return all;
  }

  static List<NeedleDocument.Share> shares(SpikeCount count) {
    List<NeedleDocument.Share> all = new ArrayList<>();
    for (double share : count.shares()) {
      all.add(new NeedleDocument.Share(all.size() + 1, share));
    }
    return all;
  }

  static MusclePart part(
      NeedleQuestion question,
      SampleMuscle muscle,
      SpikeCount count,
      NeedleResponse response,
      NeedlePotentialSolver potentials) {
    MuscleBackground background =
        muscle.background(
            BEYOND_MM,
            BACKGROUND_S,
            BACKGROUND_SITES,
            response,
            new Pickup(Cable.defaults(), 0),
            RandomStream.of(2));
    OptionalDouble lowest = background.lowestHighPassHz(TARGET_UV);
    TreeSet<Double> filters = new TreeSet<>(List.of(question.highPassHz()));
    for (double cutHz : CUTS_HZ) {
      filters.add(cutHz);
    }
    lowest.ifPresent(filters::add);
    double openUv = near(question, potentials, 0).amplitudeUv();
    List<MusclePart.Cut> cuts = new ArrayList<>();
    for (double cutHz : filters) {
      FibrePotential near = near(question, potentials, cutHz);
      double thermalUv = response.thermalNoiseUv(cutHz, NOISE_TO_HZ);
      double distantUv = background.rmsUv(cutHz);
      cuts.add(
          new MusclePart.Cut(
              cutHz,
              distantUv,
              thermalUv,
              near.amplitudeUv(),
              near.amplitudeUv() / openUv,
              Math.hypot(distantUv, thermalUv) / steepestUvPerUs(near)));
    }
    return new MusclePart(
        "healthy (own making)",
        question.spikeShareRatio(),
        LEAST_UV,
        count.spikes(),
        count.shares().isEmpty() ? 0 : count.shares().get(0),
        count.fibreDensityRatio(),
        counted(question, muscle),
        new MusclePart.BackgroundPart(
            BEYOND_MM, TARGET_UV, lowest.isPresent() ? lowest.getAsDouble() : null, NEAR_MM, cuts));
  }

  private static FibrePotential near(
      NeedleQuestion question, NeedlePotentialSolver potentials, double cutHz) {
    return potentials.solve(
        question.fibre().withDistanceMm(Math.max(NEAR_MM, question.fibre().diameterUm() / 1900)),
        STEP_US,
        new Pickup(Cable.defaults(), cutHz));
  }

  private static double steepestUvPerUs(FibrePotential potential) {
    double[] values = potential.copyUv();
    double most = 0;
    for (int i = 1; i < values.length - 1; i++) {
      most = Math.max(most, Math.abs(values[i + 1] - values[i - 1]) / (2 * potential.stepUs()));
    }
    return most;
  }

  /** Fibres in a spike, beside what the trade holds. */
  static FigurePage.Section counts(List<NeedleAnswer> answers) {
    List<List<String>> rows = new ArrayList<>();
    for (NeedleAnswer answer : answers) {
      NeedleDocument d = answer.document();
      MusclePart muscle = d.muscle();
      rows.add(
          row(
              d.needle(),
              new MusclePart.Counted(
                  d.highPassHz(),
                  muscle.spikes(),
                  d.fibresPerPotential(),
                  muscle.fibreDensityRatio())));
      muscle.byHighPass().forEach(counted -> rows.add(row(d.needle(), counted)));
    }
    return new FigurePage.Section(
        "How many fibres are in one spike",
        List.of(
            NeedleText.text(
                "Fibres that make %s or more of the steepest slope, in up to %d spikes of 200 µV or"
                    + " more at random places in a healthy sample muscle of our own making.",
                NeedleText.number(answers.get(0).question().spikeShareRatio()), SPIKES)),
        List.of(),
        List.of(
            "needle",
            "high-pass (Hz)",
            "one (%)",
            "two (%)",
            "three (%)",
            "four (%)",
            "five or more (%)",
            "mean, model",
            "mean, held by the trade (common practice, no source)",
            "fibre density, model",
            "fibre density, held by the trade"),
        rows);
  }

  private static List<String> row(String needle, MusclePart.Counted counted) {
    List<String> row = new ArrayList<>(List.of(needle, NeedleText.number(counted.highPassHz())));
    List<NeedleDocument.Share> shares = counted.fibresPerPotential();
    double mean = 0;
    for (int n = 0; n < MOST_FIBRES; n++) {
      row.add(NeedleText.text("%.0f", 100 * (n < shares.size() ? shares.get(n).share() : 0)));
    }
    for (NeedleDocument.Share share : shares) {
      mean += share.fibres() * share.share();
    }
    row.add(NeedleText.text("%.2f", mean));
    row.add(held(needle, mean));
    row.add(NeedleText.text("%.2f", counted.fibreDensityRatio()));
    row.add("1.0 to 1.8 (single-fibre, from memory)");
    return row;
  }

  /** What the trade holds of a needle, and whether a mean agrees with it. */
  private static String held(String needle, double mean) {
    return switch (needle) {
      case "single-fibre" -> "about one: " + verdict(mean, 0.7, 1.5);
      case "concentric-small" -> "two or three: " + verdict(mean, 1.5, 3.5);
      default -> "no number";
    };
  }

  private static String verdict(double mean, double low, double high) {
    return mean >= low && mean < high ? "the model agrees" : "the model disagrees";
  }

  /** Background and cost in numbers. */
  static FigurePage.Section numbers(List<NeedleAnswer> answers, List<Figure> figures) {
    List<List<String>> rows = new ArrayList<>();
    for (NeedleAnswer answer : answers) {
      for (MusclePart.Cut cut : answer.document().muscle().background().cuts()) {
        rows.add(
            List.of(
                answer.document().needle(),
                NeedleText.text("%.0f", cut.highPassHz()),
                NeedleText.text("%.1f", cut.backgroundUv()),
                NeedleText.text("%.1f", cut.thermalUv()),
                NeedleText.text("%.0f", cut.nearUv()),
                NeedleText.text("%.0f", 100 * (1 - cut.keptRatio())),
                NeedleText.text("%.2f", cut.timingErrorUs())));
      }
    }
    return new FigurePage.Section(
        "Distant fibres, and what it costs to be rid of them",
        List.of(),
        figures,
        List.of(
            "needle",
            "high-pass (Hz)",
            "background (µV rms)",
            "thermal (µV rms)",
            "potential at 0.1 mm (µV)",
            "lost (%)",
            "timing error (µs)"),
        rows);
  }
}
