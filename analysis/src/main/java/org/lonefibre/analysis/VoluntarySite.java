package org.lonefibre.analysis;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.analysis.discharge.DischargeFinder;
import org.lonefibre.analysis.discharge.Discharges;
import org.lonefibre.analysis.grading.Grade;
import org.lonefibre.analysis.grading.GradedPotential;
import org.lonefibre.analysis.grading.PotentialGrader;
import org.lonefibre.analysis.interval.IntervalBuilder;
import org.lonefibre.analysis.interval.IntervalSeries;
import org.lonefibre.analysis.jitter.EndPlateJitters;
import org.lonefibre.analysis.jitter.FollowedPotential;
import org.lonefibre.analysis.jitter.JitterEstimator;
import org.lonefibre.analysis.jitter.PatternSettings;
import org.lonefibre.analysis.jitter.UnitIntervals;
import org.lonefibre.analysis.jitter.UnitPatterns;
import org.lonefibre.analysis.potential.FollowedUnits;
import org.lonefibre.analysis.potential.PotentialTracker;
import org.lonefibre.analysis.potential.TrackedPotential;
import org.lonefibre.analysis.potential.TrackedUnit;
import org.lonefibre.analysis.settings.AnalysisSettings;
import org.lonefibre.analysis.study.Decision;
import org.lonefibre.analysis.study.EndPlateJitter;
import org.lonefibre.analysis.study.MotorUnitResult;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.analysis.study.PotentialResult;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Evidence.Quantity;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.robust.RobustStatistics;

/** The motor units of a voluntary recording: discharges, potentials, grades, pairs. */
final class VoluntarySite {

  private static final double FARTHEST_MS = 15;
  private static final double LONE_SNR = 8;
  private static final double PAUSE = 3;
  private static final double LARGEST_VARIATION = 0.45;
  private static final double SLOWEST_HZ = 2;
  private static final double FASTEST_HZ = 50;

  private final AnalysisSettings settings;
  private final ConditionedSignal signal;
  private final IntervalBuilder intervals;
  private final ResultShaper shaper;
  private final PotentialGrader grader;

  VoluntarySite(AnalysisSettings settings, ConditionedSignal signal) {
    this.settings = settings;
    this.signal = signal;
    this.shaper = new ResultShaper(signal);
    this.grader = new PotentialGrader(settings.grading(), signal);
    this.intervals = new IntervalBuilder(signal.timeBase(), shaper::timeS);
  }

  /** The units, changed as a person wants them, in the order of the changes. */
  List<MotorUnitResult> analyse(List<Decision.OfSamples> changes) {
    Discharges discharges = new DischargeFinder(settings.discharge()).find(signal);
    FollowedUnits followed = new PotentialTracker(settings.potential()).follow(signal, discharges);
    for (Decision.OfSamples change : changes) {
      if (change instanceof Decision.Missed missed) {
        followed.add(number(followed, missed.unit()), place(followed, missed));
      } else if (change instanceof Decision.Merge merge) {
        followed.merge(number(followed, merge.unit()), number(followed, merge.other()));
      } else if (change instanceof Decision.Split split) {
        int unit = number(followed, split.unit());
        if (split.sweeps().isEmpty()) {
          followed.part(unit);
        } else {
          followed.part(unit, split.sweeps().stream().mapToInt(sweep -> sweep - 1).toArray());
        }
      }
    }
    List<TrackedUnit> tracked = followed.units();
    List<TrackedUnit> units = reported(tracked);
    List<MotorUnitResult> results = new ArrayList<>();
    for (int u = 0; u < units.size(); u++) {
      results.add(unit(tracked, units.get(u), Integer.toString(u + 1)));
    }
    return results;
  }

  /** Those worth reporting, in the order of their names. */
  private List<TrackedUnit> reported(List<TrackedUnit> tracked) {
    List<TrackedUnit> units = new ArrayList<>();
    for (TrackedUnit unit : tracked) {
      if (isWorthReporting(unit)) {
        units.add(unit);
      }
    }
    units.sort(Comparator.comparingDouble(unit -> -largest(unit)));
    return units;
  }

  /** Number among the followed units of the one a person calls by its name. */
  private int number(FollowedUnits followed, String id) {
    List<TrackedUnit> units = reported(followed.units());
    for (int u = 0; u < units.size(); u++) {
      if (Integer.toString(u + 1).equals(id)) {
        return followed.units().indexOf(units.get(u));
      }
    }
    throw new IllegalArgumentException("the site has no motor unit " + id);
  }

  /** Where a person pointed, which was measured from the trigger potential. */
  private double place(FollowedUnits followed, Decision.Missed missed) {
    if (missed.offsetMs() > FARTHEST_MS) {
      throw new IllegalArgumentException(
          "the place must lie within 15 ms of the trigger, found " + missed.offsetMs());
    }
    TrackedUnit unit = followed.units().get(number(followed, missed.unit()));
    int trigger = trigger(unit, grades(followed.units(), unit));
    return unit.potentials().get(trigger).lagSamples()
        + signal.timeBase().lengthSamples(1000 * missed.offsetMs());
  }

  private List<GradedPotential> grades(List<TrackedUnit> tracked, TrackedUnit unit) {
    return grader.grade(tracked, unit);
  }

  private boolean isWorthReporting(TrackedUnit unit) {
    int fewest = settings.discharge().fewestDischarges();
    if (unit.potentials().isEmpty() || unit.discharges() < fewest) {
      return false;
    }
    return unit.potentials().size() > 1 || largest(unit) >= LONE_SNR * signal.noiseUv();
  }

  private static double largest(TrackedUnit unit) {
    return unit.potentials().stream()
        .mapToDouble(potential -> potential.shape().peakToPeakUv())
        .max()
        .orElse(0);
  }

  private MotorUnitResult unit(List<TrackedUnit> tracked, TrackedUnit unit, String id) {
    List<GradedPotential> grades = grades(tracked, unit);
    int trigger = trigger(unit, grades);
    List<PotentialResult> potentials = new ArrayList<>();
    double zero = unit.potentials().get(trigger).lagSamples();
    for (int p = 0; p < grades.size(); p++) {
      potentials.add(
          shaper.potential(potentialId(id, p), unit.potentials().get(p), zero, grades.get(p)));
    }
    List<PairResult> pairs = new ArrayList<>();
    List<FollowedPotential> followers = new ArrayList<>();
    for (int p = 0; p < grades.size(); p++) {
      if (p != trigger) {
        IntervalSeries one =
            intervals.pair(unit, unit.potentials().get(trigger), unit.potentials().get(p));
        followers.add(
            new FollowedPotential(potentialId(id, p), one, potentials.get(p).arrivalErrorUs()));
        pairs.add(
            ResultShaper.pair(
                potentialId(id, trigger),
                potentialId(id, p),
                one,
                new JitterEstimator(settings.jitter()).measure(one),
                compositeOf(grades, trigger, p, id),
                List.of()));
      }
    }
    UnitIntervals together =
        new UnitIntervals(
            potentialId(id, trigger), potentials.get(trigger).arrivalErrorUs(), followers);
    double[] firing = firing(unit);
    List<Finding> findings = findings(firing, together);
    LargestBlocks.find(potentials, together).ifPresent(findings::add);
    new DoubletSearch(signal, tracked).find(unit).ifPresent(findings::add);
    return new MotorUnitResult(
        id,
        unit.discharges(),
        firing.length == 0 ? null : 1000 / mean(firing),
        firing.length == 0 ? null : mean(firing),
        findings,
        potentials,
        pairs,
        endPlates(together),
        shaper.drawing(unit, unit.potentials().get(trigger), settings.discharge().reachMs()));
  }

  private static String potentialId(String unit, int p) {
    return unit + (char) ('a' + p);
  }

  /** The largest potential that is nearly always there, one made by one fibre if there is one. */
  private static int trigger(TrackedUnit unit, List<GradedPotential> grades) {
    int best = 0;
    double most = -1;
    for (int p = 0; p < grades.size(); p++) {
      TrackedPotential potential = unit.potentials().get(p);
      double share = (double) potential.presentCount() / Math.max(1, unit.discharges());
      double trust =
          switch (grades.get(p).grade()) {
            case SINGLE_FIBRE -> 1;
            case DOUBTFUL -> 0.8;
            case UNGRADED -> 0.2;
            case COMPOSITE -> 0.02;
          };
      double worth = potential.shape().peakToPeakUv() * share * share * trust;
      if (worth > most) {
        most = worth;
        best = p;
      }
    }
    return best;
  }

  /** The finding that excludes a pair because one of its potentials is composite, or null. */
  private static @Nullable Finding compositeOf(
      List<GradedPotential> grades, int trigger, int paired, String id) {
    List<String> composite = new ArrayList<>();
    for (int p : new int[] {trigger, paired}) {
      if (grades.get(p).grade() == Grade.COMPOSITE) {
        composite.add(potentialId(id, p));
      }
    }
    return composite.isEmpty()
        ? null
        : Finding.exclusion(
            FindingCode.COMPOSITE,
            "More than one fibre made potential "
                + String.join(" and ", composite)
                + ": the pair is left out of the statistics.",
            Evidence.NONE);
  }

  /** Inter-discharge intervals in ms, pauses and gaps left out. */
  private double[] firing(TrackedUnit unit) {
    List<Double> intervalsMs = new ArrayList<>();
    for (int d = 1; d < unit.discharges(); d++) {
      if (unit.segment(d) == unit.segment(d - 1)) {
        intervalsMs.add(
            signal.timeBase().durationMs(unit.referenceSamples(d) - unit.referenceSamples(d - 1)));
      }
    }
    double[] all = intervalsMs.stream().mapToDouble(Double::doubleValue).toArray();
    if (all.length == 0) {
      return all;
    }
    double usual = RobustStatistics.median(all.clone());
    return java.util.Arrays.stream(all).filter(interval -> interval < PAUSE * usual).toArray();
  }

  private static double mean(double[] values) {
    return java.util.Arrays.stream(values).average().orElse(0);
  }

  private List<Finding> findings(double[] firing, UnitIntervals together) {
    List<Finding> findings = new ArrayList<>();
    if (firing.length > 5) {
      double mean = mean(firing);
      double sum = 0;
      for (double interval : firing) {
        sum += (interval - mean) * (interval - mean);
      }
      double variation = Math.sqrt(sum / firing.length) / mean;
      double rate = 1000 / mean;
      if (variation > LARGEST_VARIATION || rate < SLOWEST_HZ || rate > FASTEST_HZ) {
        findings.add(
            Finding.caution(
                FindingCode.IRREGULAR_RATE,
                String.format(
                    Locale.ROOT,
                    "The unit fires at %.1f Hz with a variation of %.0f %%: discharges may be"
                        + " missing or belong to another unit.",
                    rate,
                    100 * variation),
                Evidence.of(
                    new Quantity("rate", rate, "Hz"),
                    new Quantity("variation", 100 * variation, "%"))));
      }
    }
    int pairs = together.followers().size();
    if (pairs > 1) {
      findings.add(
          Finding.note(
              FindingCode.SHARED_TRIGGER,
              String.format(
                  Locale.ROOT,
                  "%d pairs share one trigger potential: they are not independent.",
                  pairs),
              Evidence.NONE));
    }
    if (pairs > 0) {
      findings.addAll(
          new UnitPatterns(settings.jitter(), PatternSettings.defaults()).judge(together));
    }
    return findings;
  }

  /** Each end-plate's own jitter, in the order of the potentials; none with fewer than three. */
  private List<EndPlateJitter> endPlates(UnitIntervals together) {
    if (together.followers().size() < 2) {
      return List.of();
    }
    return new EndPlateJitters(settings.jitter())
        .separate(together).stream()
            .map(
                own ->
                    new EndPlateJitter(
                        own.potential(), own.jitterUs(), own.jitterLowUs(), own.jitterHighUs()))
            .sorted(Comparator.comparing(EndPlateJitter::potential))
            .toList();
  }
}
