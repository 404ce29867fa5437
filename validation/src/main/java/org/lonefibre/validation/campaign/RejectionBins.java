package org.lonefibre.validation.campaign;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.lonefibre.validation.campaign.GoalFigure.Ends;
import org.lonefibre.validation.campaign.GoalFigure.GoalCurve;
import org.lonefibre.validation.campaign.PairLook.Company;

/** Signals of one needle by their true jitter, and how many of each are rejected. */
final class RejectionBins {

  static final List<String> HEADS =
      List.of(
          "needle",
          "signals",
          "true jitter us",
          "number",
          "rejected by trade %",
          "rejected by ours beyond %",
          "two errors %",
          "mean kept by trade",
          "mean kept by ours");

  private static final double[] BINS_US = {0, 20, 30, 45, 65, 90, Double.POSITIVE_INFINITY};
  private static final double[] MIDDLES_US = {15, 25, 37.5, 55, 77.5, 105};
  private static final double MORE_POINTS = 5;
  private static final int FEWEST_DRAWN = 10;

  private enum Kind {
    CLEAN("clean, steady end-plates", p -> p.company() == Company.NONE && !p.isFailing()),
    FAILING("clean, failing end-plates", p -> p.company() == Company.NONE && p.isFailing()),
    BETWEEN("second fibre of a tenth to a quarter", p -> p.company() == Company.SMALL),
    APART("second fibre measured apart", p -> p.company() == Company.APART),
    COMPOSITE("composite", p -> p.company() == Company.HIDDEN);

    private final String words;
    private final Predicate<PairLook> which;

    Kind(String words, Predicate<PairLook> which) {
      this.words = words;
      this.which = which;
    }
  }

  private final String needle;
  private final List<PairLook> all;
  private final double basePercent;
  private final int baseNumber;

  RejectionBins(String needle, List<PairLook> all) {
    this.needle = needle;
    this.all = List.copyOf(all);
    List<PairLook> base =
        accepted(Stream.concat(bin(Kind.CLEAN, 1).stream(), bin(Kind.CLEAN, 2).stream()).toList());
    basePercent = beyond(base);
    baseNumber = base.size();
  }

  List<GoalRow> listRows() {
    List<GoalRow> rows = new ArrayList<>();
    for (Kind kind : Kind.values()) {
      for (int b = 0; b + 1 < BINS_US.length; b++) {
        List<PairLook> pairs = bin(kind, b);
        if (!pairs.isEmpty()) {
          rows.add(row(kind, b, pairs));
        }
      }
    }
    return rows;
  }

  private GoalRow row(Kind kind, int b, List<PairLook> pairs) {
    List<PairLook> accepted = accepted(pairs);
    double ours = beyond(accepted);
    double errors = 2 * Math.hypot(error(ours, accepted.size()), error(basePercent, baseNumber));
    List<String> cells =
        List.of(
            needle,
            kind.words,
            Double.isInfinite(BINS_US[b + 1])
                ? String.format(Locale.ROOT, "from %.0f", BINS_US[b])
                : String.format(Locale.ROOT, "%.0f to %.0f", BINS_US[b], BINS_US[b + 1]),
            Integer.toString(pairs.size()),
            IntervalCampaign.tenth(RejectionCampaign.percent(pairs, p -> !p.byTradeRules())),
            accepted.isEmpty() ? "none left" : IntervalCampaign.tenth(ours),
            accepted.isEmpty() ? "" : IntervalCampaign.tenth(errors),
            ratio(accepted),
            ratio(accepted.stream().filter(PairLook::byFullGrade).toList()));
    boolean judged =
        (kind == Kind.CLEAN || kind == Kind.FAILING) && BINS_US[b] >= 45 && !accepted.isEmpty();
    return judged
        ? GoalRow.within(cells, ours - basePercent, -100, MORE_POINTS, "at most 5 points more")
        : GoalRow.told(cells);
  }

  /** Rates of rejection over true jitter. */
  GoalFigure figure() {
    List<GoalCurve> curves = new ArrayList<>();
    addCurve(curves, "clean: trade's rules and full grade", Kind.CLEAN, p -> !p.byFullGrade());
    addCurve(curves, "clean: trade's rules alone", Kind.CLEAN, p -> false);
    addCurve(
        curves, "composite: trade's rules and full grade", Kind.COMPOSITE, p -> !p.byFullGrade());
    return new GoalFigure(
        needle,
        "Who is rejected: " + needle,
        "true jitter of the pair, us",
        new Ends(0, 120, false),
        "rejected, %",
        new Ends(0, 100, false),
        curves);
  }

  private void addCurve(
      List<GoalCurve> curves, String name, Kind kind, Predicate<PairLook> beyondTrade) {
    List<Double> across = new ArrayList<>();
    List<Double> up = new ArrayList<>();
    for (int b = 0; b + 1 < BINS_US.length; b++) {
      List<PairLook> pairs = bin(kind, b);
      if (pairs.size() >= FEWEST_DRAWN) {
        across.add(MIDDLES_US[b]);
        up.add(RejectionCampaign.percent(pairs, p -> !p.byTradeRules() || beyondTrade.test(p)));
      }
    }
    if (across.size() > 1) {
      curves.add(new GoalCurve(name, across, up));
    }
  }

  private List<PairLook> bin(Kind kind, int b) {
    return all.stream()
        .filter(kind.which)
        .filter(p -> p.trueUs() >= BINS_US[b] && p.trueUs() < BINS_US[b + 1])
        .toList();
  }

  private static List<PairLook> accepted(List<PairLook> pairs) {
    return pairs.stream().filter(PairLook::byTradeRules).toList();
  }

  /** Of those that the trade's rules accept, how many the full grade calls composite. */
  private static double beyond(List<PairLook> accepted) {
    return RejectionCampaign.percent(accepted, p -> !p.byFullGrade());
  }

  /** Standard error of a percentage, by the rule that adds two of each (Agresti and Coull 1998). */
  private static double error(double percent, int number) {
    double share = (percent / 100 * number + 2) / (number + 4);
    return 100 * Math.sqrt(share * (1 - share) / (number + 4));
  }

  private static String ratio(List<PairLook> kept) {
    return kept.isEmpty()
        ? "none"
        : String.format(
            Locale.ROOT,
            "%.2f",
            kept.stream().mapToDouble(p -> p.measuredUs() / p.trueUs()).average().orElse(0));
  }
}
