package org.lonefibre.analysis.chain;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Measures a chain by what it made of the {@link TestSignal}.
 *
 * <ul>
 *   <li>The rate is that against the player's clock: which of the two is wrong, the test cannot
 *       say.
 *   <li>Linear interpolation to a higher rate looks like a gentle low-pass and is not named.
 *   <li>Thread rule: safe, keeps nothing.
 * </ul>
 */
public final class ChainTest {

  private static final int FEWEST_PAIRS = 20;
  private static final double CLOCK_RATIO = 20e-6;
  private static final double CLIPPED_RATIO = 0.97;
  private static final double COARSER_RATIO = 1.5;
  private static final double ABRUPT_DB = 24;
  private static final double BESIDE_RATIO = 0.005;

  private final TestSignal sent = new TestSignal();

  /**
   * Measures an export.
   *
   * @param samples all samples of the signal, in any unit
   * @param declaredRateHz rate as the export says it
   * @param resolutionUv one step as the export says it, in the unit of the samples; null if unsaid
   * @param calibration whether the samples are microvolts
   * @throws IllegalArgumentException if the test signal is not in it; the message says so
   */
  public ChainResult measure(
      double[] samples,
      double declaredRateHz,
      @Nullable Double resolutionUv,
      Channel.Calibration calibration) {
    List<TestSignal.Pair> pairs = sent.pairs();
    List<PulseTimes.@Nullable Found> found = new PulseTimes(samples, declaredRateHz).of(pairs);
    int matched = (int) found.stream().filter(Objects::nonNull).count();
    if (matched < FEWEST_PAIRS) {
      throw new IllegalArgumentException(
          matched + " of " + pairs.size() + " pairs of the test signal");
    }
    ClockFit clock = ClockFit.of(pairs, found);
    Tones tones = Tones.of(samples, declaredRateHz, clock, sent);
    double[] frequencies = numbers(tones.frequenciesHz());
    double[] gains = numbers(tones.gainsDb());
    RollOff high = RollOff.of(frequencies, gains, declaredRateHz, -1);
    RollOff low = RollOff.of(frequencies, gains, declaredRateHz, 1);
    double full = tones.full();
    double step = smallestStep(samples);
    double noise = silence(samples, clock, pairs);
    PairJitter jitter = PairJitter.of(pairs, found, clock);
    List<ChainStep> steps = new ArrayList<>();
    if (matched < pairs.size()) {
      say(
          steps,
          ChainStep.Kind.INCOMPLETE,
          "%d of %d pairs are not in the export.",
          pairs.size() - matched,
          pairs.size());
    }
    double off = clock.samplesPerS() / declaredRateHz - 1;
    if (Math.abs(off) > CLOCK_RATIO) {
      say(
          steps,
          ChainStep.Kind.CLOCK_OFF,
          "The rate is %+.0f ppm off the declared one by the player's clock.",
          off * 1e6);
    }
    if (!clock.jumps().isEmpty()) {
      double lost = clock.jumps().stream().mapToDouble(Double::doubleValue).sum();
      say(
          steps,
          ChainStep.Kind.SAMPLES_DROPPED,
          "Time jumps %d times, by %.1f samples, %.3f ms, in all (below 0: lost).",
          clock.jumps().size(),
          lost,
          1e3 * lost / clock.samplesPerS());
    }
    if (tones.fullRatio() < CLIPPED_RATIO) {
      say(
          steps,
          ChainStep.Kind.CLIPPED,
          "A tone as large as the pulses comes back with %.0f %% of its size: clipped or compressed.",
          100 * tones.fullRatio());
    }
    if (resolutionUv != null && step > COARSER_RATIO * resolutionUv) {
      say(
          steps,
          ChainStep.Kind.COARSE_STEPS,
          "Steps are %.3g, declared are %.3g, in the unit of the export.",
          step,
          resolutionUv);
    }
    boolean abrupt =
        low != null && low.steepest() > ABRUPT_DB && low.cornerHz() < 0.4 * declaredRateHz;
    if (low != null && abrupt) {
      say(
          steps,
          ChainStep.Kind.RESAMPLED,
          "The response ends abruptly near %.0f Hz, as after a rate of about %.0f Hz.",
          low.cornerHz(),
          2.2 * low.cornerHz());
    }
    twice(steps, high, "high-pass");
    twice(steps, abrupt ? null : low, "low-pass");
    double explained = 1.5 * Math.hypot(noise, 0.3 * step);
    boolean steady = clock.jumps().isEmpty() && tones.fullRatio() >= CLIPPED_RATIO;
    if (steady && tones.beside() > explained && tones.beside() > BESIDE_RATIO * tones.middle()) {
      say(
          steps,
          ChainStep.Kind.LOSSY_CODING,
          "Beside a tone stand %.1f %% of it that noise and steps do not explain.",
          100 * tones.beside() / tones.middle());
    }
    return new ChainResult(
        declaredRateHz,
        clock.samplesPerS(),
        pairs.size(),
        matched,
        high == null ? null : high.cornerHz(),
        high == null ? 0 : high.order(),
        low == null ? null : low.cornerHz(),
        low == null ? 0 : low.order(),
        calibration == Channel.Calibration.MICROVOLT ? full : null,
        noise / full,
        step / full,
        jitter.constantUs(),
        jitter.constantLowUs(),
        jitter.constantHighUs(),
        jitter.sentUs(),
        jitter.foundUs(),
        steps);
  }

  private static double[] numbers(List<Double> values) {
    return values.stream().mapToDouble(Double::doubleValue).toArray();
  }

  private static void twice(List<ChainStep> steps, @Nullable RollOff end, String name) {
    if (end != null && end.order() > 0 && end.passes() == 2) {
      say(
          steps,
          ChainStep.Kind.FILTERED_TWICE,
          "The %s, 3 dB lost at %.0f Hz, falls as one of order %d run twice.",
          name,
          end.cornerHz(),
          end.order());
    }
  }

  private static void say(List<ChainStep> steps, ChainStep.Kind kind, String text, Object... n) {
    steps.add(new ChainStep(kind, String.format(Locale.ROOT, text, n)));
  }

  private double silence(double[] samples, ClockFit clock, List<TestSignal.Pair> pairs) {
    double first = pairs.get(0).timeS();
    double worst = 0;
    for (double[] part :
        new double[][] {
          {first - 0.5, first - 0.05}, {sent.durationS() - 0.8, sent.durationS() - 0.1}
        }) {
      int from = (int) Math.max(0, clock.position(part[0], pairs));
      int to = (int) Math.min(samples.length, clock.position(part[1], pairs));
      if (to - from > 100) {
        worst =
            Math.max(
                worst, RobustStatistics.standardDeviation(Arrays.copyOfRange(samples, from, to)));
      }
    }
    return worst;
  }

  /** A tenth of the differences between neighbouring values are smaller. */
  private static double smallestStep(double[] samples) {
    double[] sorted = samples.clone();
    Arrays.sort(sorted);
    double least = 1e-9 * (sorted[sorted.length - 1] - sorted[0]);
    double[] steps = new double[sorted.length];
    int count = 0;
    for (int i = 1; i < sorted.length; i++) {
      double step = sorted[i] - sorted[i - 1];
      if (step > least) {
        steps[count++] = step;
      }
    }
    return count == 0 ? 0 : RobustStatistics.quantileInPlace(steps, count, 0.1);
  }
}
