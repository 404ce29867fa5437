package org.lonefibre.analysis.discharge;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Finds every discharge of one motor unit from the pattern of its potentials, some of which may be
 * missing: each free spike is tried in each role, the best explained candidates are taken first.
 */
final class PatternMatcher {

  private static final int ROUNDS = 3;
  private static final double SHAPE_ALLOWANCE = 0.35;
  private static final double NOISE_ALLOWANCE = 2.5;
  private static final double SEED_ALLOWANCE = 0.12;
  private static final double TIGHTEST = 0.015;
  private static final double LOOSE = 5;
  private static final double OFTEN = 0.3;
  private static final double RHYTHM = 0.6;
  private static final double SEEN = 4;
  private static final double PATTERN_SHARE = 0.6;
  private static final double WORTH = 3;
  private static final double ENOUGH_SHARE = 0.35;
  private static final double MISSING_COST = 0.3;
  private static final double SMALLEST_PRESENCE = 0.08;

  private final DischargeSettings settings;
  private final ConditionedSignal signal;
  private final SpikeTrain spikes;
  private final Snippets snippets;
  private final UnitSplitter splitter;
  private final double noiseEnergy;
  private final double refractory;

  /** A possible discharge: its reference, the spike in each role (or none), how well it fits. */
  private static final class Candidate {

    private final double reference;
    private final int segment;
    private final int[] spike;
    private final double score;
    private final double share;
    private final int tight;

    Candidate(double reference, int segment, int[] spike, double score, double share, int tight) {
      this.reference = reference;
      this.segment = segment;
      this.spike = spike;
      this.score = score;
      this.share = share;
      this.tight = tight;
    }
  }

  PatternMatcher(
      DischargeSettings settings,
      ConditionedSignal signal,
      SpikeTrain spikes,
      Snippets snippets,
      UnitSplitter splitter) {
    this.settings = settings;
    this.signal = signal;
    this.spikes = spikes;
    this.snippets = snippets;
    this.splitter = splitter;
    this.noiseEnergy = signal.noiseUv() * signal.noiseUv() * Snippets.LENGTH;
    this.refractory = signal.timeBase().lengthSamples(settings.refractoryMs() * 1000);
  }

  /** The discharges, if there are enough; their spikes are marked with the unit. */
  Optional<UnitDraft> match(List<Role> first, int unit) {
    List<Role> roles = first;
    List<Candidate> found;
    for (int round = 0; round < ROUNDS; round++) {
      found = choose(roles);
      if (found.size() < settings.fewestDischarges()) {
        return Optional.empty();
      }
      roles = refine(roles, found);
    }
    found = choose(roles);
    if (found.size() < settings.fewestDischarges()) {
      return Optional.empty();
    }
    List<Candidate> one = ofOneUnit(found);
    if (one.size() < found.size()) {
      found = one;
      roles = refine(roles, found);
    }
    for (Candidate candidate : found) {
      for (int spike : candidate.spike) {
        if (spike != SpikeTrain.NONE) {
          spikes.unit[spike] = unit;
        }
      }
    }
    return Optional.of(draft(roles, found));
  }

  private List<Candidate> ofOneUnit(List<Candidate> found) {
    double[] places = found.stream().mapToDouble(this::anchored).toArray();
    int[] segments = found.stream().mapToInt(candidate -> candidate.segment).toArray();
    return Arrays.stream(splitter.one(places, segments)).mapToObj(found::get).toList();
  }

  /** A role from the spikes that play it. */
  static Role role(Snippets snippets, int[] members, double lag, double spread, double presence) {
    Role role = new Role(lag, spread, presence, meanShape(snippets, members));
    double[] misfit = new double[members.length];
    for (int m = 0; m < members.length; m++) {
      misfit[m] = snippets.distance(members[m], role.shape) / role.energy;
    }
    role.looseness = RobustStatistics.median(misfit);
    return role;
  }

  private static double[] meanShape(Snippets snippets, int[] members) {
    double[] column = new double[members.length];
    double[] shape = new double[Snippets.LENGTH];
    for (int k = 0; k < shape.length; k++) {
      for (int m = 0; m < members.length; m++) {
        column[m] = snippets.value(members[m], k);
      }
      shape[k] = RobustStatistics.median(column);
    }
    return shape;
  }

  private List<Candidate> choose(List<Role> roles) {
    List<Candidate> candidates = new ArrayList<>();
    for (int i = 0; i < spikes.count; i++) {
      if (spikes.unit[i] == SpikeTrain.NONE) {
        for (int r = 0; r < roles.size(); r++) {
          if (fits(i, roles.get(r), SEED_ALLOWANCE)) {
            candidates.add(candidate(roles, r, i));
          }
        }
      }
    }
    candidates.sort(Comparator.comparingDouble(candidate -> -candidate.score));
    Acceptance acceptance = new Acceptance();
    for (Candidate candidate : candidates) {
      if (isWhole(roles, candidate) && (candidate.tight > 0 || isPattern(candidate))) {
        acceptance.offer(candidate, refractory);
      }
    }
    double usual = acceptance.usualInterval();
    for (Candidate candidate : candidates) {
      if (candidate.tight > 0) {
        acceptance.offer(candidate, Math.max(refractory, RHYTHM * usual));
      }
    }
    return acceptance.inOrder();
  }

  /**
   * Whether a discharge shows enough of the pattern to be taken wherever it lies: no potential that
   * is often there is missing, or at least two are there. Others must fit the rhythm of the unit.
   */
  private boolean isWhole(List<Role> roles, Candidate candidate) {
    int played = 0;
    int missing = 0;
    for (int r = 0; r < roles.size(); r++) {
      if (candidate.spike[r] != SpikeTrain.NONE) {
        played++;
      } else if (roles.get(r).presence >= OFTEN && roles.get(r).energy > SEEN * noiseEnergy) {
        missing++;
      }
    }
    return candidate.share >= ENOUGH_SHARE && (missing == 0 || played >= 2);
  }

  /** Whether several potentials stand in their places, though none is quite its usual shape. */
  private static boolean isPattern(Candidate candidate) {
    long played = Arrays.stream(candidate.spike).filter(s -> s != SpikeTrain.NONE).count();
    return played >= 2 && candidate.share >= PATTERN_SHARE;
  }

  /** Whether a spike is as like the shape as those of the unit are. */
  private boolean isTight(int spike, Role role) {
    double allowance = Math.max(TIGHTEST, Math.min(SEED_ALLOWANCE, LOOSE * role.looseness));
    return role.energy > WORTH * noiseEnergy && fits(spike, role, allowance);
  }

  private boolean fits(int spike, Role role, double allowance) {
    return snippets.distance(spike, role.shape)
        < allowance * role.energy + NOISE_ALLOWANCE * noiseEnergy;
  }

  private Candidate candidate(List<Role> roles, int role, int spike) {
    double reference = spikes.position[spike] - roles.get(role).lag;
    int[] chosen = new int[roles.size()];
    double score = 0;
    double matched = 0;
    double whole = 0;
    int tight = 0;
    for (int r = 0; r < chosen.length; r++) {
      Role wanted = roles.get(r);
      chosen[r] = r == role ? spike : bestIn(wanted, reference, spikes.segment[spike]);
      double weight = wanted.size() * Math.max(0.1, wanted.presence);
      whole += weight;
      if (chosen[r] == SpikeTrain.NONE) {
        score -= MISSING_COST * weight;
      } else {
        double misfit = snippets.distance(chosen[r], wanted.shape) / wanted.energy;
        double off = (spikes.position[chosen[r]] - reference - wanted.lag) / tolerance(wanted);
        score += wanted.size() * (1 - 0.5 * Math.min(1.5, misfit) - 0.2 * off * off);
        matched += weight;
        tight += isTight(chosen[r], wanted) ? 1 : 0;
      }
    }
    withoutRepeats(chosen, roles, reference);
    return new Candidate(reference, spikes.segment[spike], chosen, score, matched / whole, tight);
  }

  /** One spike plays one role: the nearest. */
  private void withoutRepeats(int[] chosen, List<Role> roles, double reference) {
    for (int r = 0; r < chosen.length; r++) {
      for (int s = r + 1; s < chosen.length; s++) {
        if (chosen[r] != SpikeTrain.NONE && chosen[r] == chosen[s]) {
          double at = spikes.position[chosen[r]] - reference;
          boolean firstNearer = Math.abs(at - roles.get(r).lag) <= Math.abs(at - roles.get(s).lag);
          chosen[firstNearer ? s : r] = SpikeTrain.NONE;
        }
      }
    }
  }

  private int bestIn(Role role, double reference, int segment) {
    double centre = reference + role.lag;
    double tolerance = tolerance(role);
    int best = SpikeTrain.NONE;
    double least = Double.MAX_VALUE;
    int i = spikes.firstAtOrAfter(centre - tolerance);
    for (; i < spikes.count && spikes.position[i] <= centre + tolerance; i++) {
      if (spikes.unit[i] == SpikeTrain.NONE
          && spikes.segment[i] == segment
          && fits(i, role, SHAPE_ALLOWANCE)) {
        double off = (spikes.position[i] - centre) / tolerance;
        double misfit = snippets.distance(i, role.shape) / role.energy + 0.3 * off * off;
        if (misfit < least) {
          least = misfit;
          best = i;
        }
      }
    }
    return best;
  }

  private double tolerance(Role role) {
    double least = signal.timeBase().lengthSamples(250);
    double most = signal.timeBase().lengthSamples(700);
    return Math.min(most, Math.max(least, 5 * role.spread));
  }

  /** New places and shapes from the discharges found; roles hardly ever played are dropped. */
  private List<Role> refine(List<Role> roles, List<Candidate> found) {
    List<Role> refined = new ArrayList<>();
    for (int r = 0; r < roles.size(); r++) {
      int role = r;
      int[] members =
          found.stream()
              .mapToInt(candidate -> candidate.spike[role])
              .filter(spike -> spike != SpikeTrain.NONE)
              .toArray();
      double presence = (double) members.length / found.size();
      if (r > 0 && (presence < SMALLEST_PRESENCE || members.length < 4)) {
        continue;
      }
      if (members.length == 0) {
        refined.add(roles.get(r));
        continue;
      }
      double[] lags =
          found.stream()
              .filter(candidate -> candidate.spike[role] != SpikeTrain.NONE)
              .mapToDouble(c -> spikes.position[c.spike[role]] - anchored(c))
              .toArray();
      refined.add(
          role(
              snippets,
              members,
              RobustStatistics.median(lags),
              lags.length > 3 ? RobustStatistics.standardDeviation(lags) : 0,
              presence));
    }
    return refined;
  }

  /** Reference of a discharge: its first role if played, else what the others say. */
  private double anchored(Candidate candidate) {
    int anchor = candidate.spike[0];
    return anchor == SpikeTrain.NONE ? candidate.reference : spikes.position[anchor];
  }

  private UnitDraft draft(List<Role> roles, List<Candidate> found) {
    double[] reference = new double[found.size()];
    int[] segment = new int[found.size()];
    double[][] position = new double[found.size()][roles.size()];
    for (int d = 0; d < found.size(); d++) {
      Candidate candidate = found.get(d);
      reference[d] = anchored(candidate);
      segment[d] = candidate.segment;
      for (int r = 0; r < roles.size(); r++) {
        int spike = candidate.spike[r];
        position[d][r] = spike == SpikeTrain.NONE ? Double.NaN : spikes.position[spike];
      }
    }
    return new UnitDraft(roles, reference, segment, position);
  }

  /** Takes candidates while neither their spikes nor their time are taken. */
  private final class Acceptance {

    private final boolean[] used = new boolean[spikes.count];

    /** Those taken and their places, in order of place. */
    private final List<Candidate> accepted = new ArrayList<>();

    private double[] places = new double[64];

    void offer(Candidate candidate, double apart) {
      int count = accepted.size();
      int found = Arrays.binarySearch(places, 0, count, candidate.reference);
      int at = found < 0 ? -found - 1 : found;
      if (found >= 0
          || (at > 0 && candidate.reference - places[at - 1] < apart)
          || (at < count && places[at] - candidate.reference < apart)) {
        return;
      }
      for (int spike : candidate.spike) {
        if (spike != SpikeTrain.NONE && used[spike]) {
          return;
        }
      }
      for (int spike : candidate.spike) {
        if (spike != SpikeTrain.NONE) {
          used[spike] = true;
        }
      }
      if (count == places.length) {
        places = Arrays.copyOf(places, 2 * count);
      }
      System.arraycopy(places, at, places, at + 1, count - at);
      places[at] = candidate.reference;
      accepted.add(at, candidate);
    }

    /** An interval that most are longer than: gaps left by missing discharges do not raise it. */
    double usualInterval() {
      if (accepted.size() < 3) {
        return 0;
      }
      double[] intervals = new double[accepted.size() - 1];
      for (int i = 0; i < intervals.length; i++) {
        intervals[i] = places[i + 1] - places[i];
      }
      return RobustStatistics.quantile(intervals, 0.25);
    }

    List<Candidate> inOrder() {
      return List.copyOf(accepted);
    }
  }
}
