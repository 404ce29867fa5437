package org.lonefibre.analysis.jitter;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.lonefibre.analysis.interval.SweepState;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;

class UnitPatternsTest {

  private static final UnitPatterns PATTERNS =
      new UnitPatterns(JitterSettings.defaults(), PatternSettings.defaults());
  private static final EndPlateJitters END_PLATES = new EndPlateJitters(JitterSettings.defaults());

  @Tag("analytic")
  @Test
  void ownJittersAddUpToThoseOfThePairs() {
    Random random = new Random(41);
    UnitIntervals unit = unit(random, 60_000, Law.GAUSSIAN, 1, 2, 0.5);
    List<OwnJitter> own = END_PLATES.separate(unit);
    assertThat(own).extracting(OwnJitter::potential).containsExactly("t", "f1", "f2");
    assertThat(own.get(0).jitterUs()).isCloseTo(22.57, within(0.6));
    assertThat(own.get(1).jitterUs()).isCloseTo(45.14, within(0.6));
    assertThat(own.get(2).jitterUs()).isCloseTo(11.28, within(0.8));
  }

  @Tag("analytic")
  @Test
  void arrivalErrorsAreTakenOff() {
    Random random = new Random(43);
    UnitIntervals unit = unit(random, 60_000, Law.GAUSSIAN, 1, 1, 1);
    List<FollowedPotential> followers =
        unit.followers().stream()
            .map(f -> new FollowedPotential(f.potential(), f.intervals(), 12.0))
            .toList();
    List<OwnJitter> own = END_PLATES.separate(new UnitIntervals("t", 16.0, followers));
    assertThat(own.get(0).jitterUs()).isCloseTo(1.12838 * 12, within(0.6));
    assertThat(own.get(1).jitterUs()).isCloseTo(1.12838 * 16, within(0.6));
  }

  @Tag("property")
  @ParameterizedTest
  @EnumSource(
      value = Law.class,
      names = {"GAUSSIAN", "GAMMA_SKEWNESS_1", "EXPONENTIAL_SKEWNESS_2"})
  void intervalOfOwnJitterHoldsTheTruth(Law law) {
    double[] sizes = {1, 2, 0.75};
    Random random = new Random(47);
    int units = 1500;
    int[] held = new int[3];
    for (int i = 0; i < units; i++) {
      List<OwnJitter> own = END_PLATES.separate(unit(random, 61, law, sizes));
      for (int k = 0; k < 3; k++) {
        Double low = own.get(k).jitterLowUs();
        Double high = own.get(k).jitterHighUs();
        double truth = sizes[k] * law.jitterUs();
        held[k] += (low == null || low <= truth) && high != null && high >= truth ? 1 : 0;
      }
    }
    for (int count : held) {
      assertThat((double) count / units).isBetween(0.91, 0.985);
    }
  }

  @Tag("contract")
  @Test
  void withoutAThirdPotentialThereIsAReasonAndNoNumber() {
    List<OwnJitter> own = END_PLATES.separate(unit(new Random(1), 61, Law.GAUSSIAN, 1, 1));
    assertThat(own).hasSize(2).allMatch(o -> o.jitterUs() == null && o.reason() != null);
  }

  @Tag("contract")
  @Test
  void potentialThatIsRarelyThereIsLeftOut() {
    UnitIntervals unit = unit(new Random(2), 61, Law.GAUSSIAN, 1, 1, 1);
    Series rare = new Series();
    for (int i = 0; i < 61; i++) {
      if (i % 3 == 0) {
        rare.present(2000);
      } else {
        rare.absent(SweepState.BLOCKED);
      }
    }
    List<FollowedPotential> followers = new ArrayList<>(unit.followers());
    followers.add(new FollowedPotential("rare", rare.intervals(), null));
    List<OwnJitter> own = END_PLATES.separate(new UnitIntervals("t", null, followers));
    assertThat(own.get(3).jitterUs()).isNull();
    assertThat(own.get(3).reason()).contains("often enough");
    assertThat(own.get(1).jitterUs()).isNotNull();
  }

  @Tag("property")
  @Test
  void abnormalTriggerIsFoundAndHealthyUnitsAreNotAccused() {
    Random random = new Random(53);
    int found = 0;
    int falsely = 0;
    int follower = 0;
    for (int i = 0; i < 500; i++) {
      found += has(unit(random, 61, Law.GAUSSIAN, 3, 1, 1), FindingCode.TRIGGER_ABNORMAL);
      falsely += has(unit(random, 61, Law.GAUSSIAN, 1.2, 1.2, 1.2), FindingCode.TRIGGER_ABNORMAL);
      follower += has(unit(random, 61, Law.GAUSSIAN, 1, 3, 1), FindingCode.TRIGGER_ABNORMAL);
    }
    assertThat(found).isGreaterThan(400);
    assertThat(falsely).isLessThanOrEqualTo(8);
    assertThat(follower).isZero();
  }

  @Tag("property")
  @Test
  void jointBlocksAreAnAxonAndIndependentOnesAreNot() {
    Random random = new Random(59);
    int found = 0;
    int falsely = 0;
    for (int i = 0; i < 500; i++) {
      found += has(blocking(random, true), FindingCode.AXONAL_BLOCK);
      falsely += has(blocking(random, false), FindingCode.AXONAL_BLOCK);
    }
    assertThat(found).isGreaterThan(480);
    assertThat(falsely).isLessThanOrEqualTo(3);
  }

  private static UnitIntervals blocking(Random random, boolean together) {
    Series first = new Series();
    Series second = new Series();
    for (int i = 0; i < 80; i++) {
      boolean one = random.nextDouble() < 0.15;
      boolean two = together ? one : random.nextDouble() < 0.15;
      draw(first, one, random);
      draw(second, two, random);
    }
    return new UnitIntervals(
        "t",
        null,
        List.of(
            new FollowedPotential("f1", first.intervals(), null),
            new FollowedPotential("f2", second.intervals(), null)));
  }

  private static void draw(Series series, boolean blocked, Random random) {
    if (blocked) {
      series.absent(SweepState.BLOCKED);
    } else {
      series.present(900 + 25 * random.nextGaussian());
    }
  }

  @Tag("contract")
  @Test
  void triggerThatVanishesBeforeAFollowerBlocks() {
    Series series = new Series().present(800).absent(SweepState.TRIGGER_ABSENT).present(810);
    List<Finding> found =
        PATTERNS.judge(
            new UnitIntervals(
                "t", null, List.of(new FollowedPotential("f1", series.intervals(), null))));
    assertThat(found).hasSize(1);
    assertThat(found.get(0).code()).isEqualTo(FindingCode.TRIGGER_BLOCKING);
    assertThat(found.get(0).evidence().sweeps()).containsExactly(2);
  }

  private static int has(UnitIntervals unit, FindingCode code) {
    return PATTERNS.judge(unit).stream().anyMatch(f -> f.code() == code) ? 1 : 0;
  }

  /** Potentials whose latencies follow one law in several sizes, the trigger first. */
  private static UnitIntervals unit(Random random, int sweeps, Law law, double... sizes) {
    List<Series> series = new ArrayList<>();
    for (int k = 1; k < sizes.length; k++) {
      series.add(new Series());
    }
    for (int i = 0; i < sweeps; i++) {
      double trigger = sizes[0] * law.drawUs(random);
      for (int k = 1; k < sizes.length; k++) {
        series.get(k - 1).present(700 * k + sizes[k] * law.drawUs(random) - trigger);
      }
    }
    List<FollowedPotential> followers = new ArrayList<>();
    for (int k = 1; k < sizes.length; k++) {
      followers.add(new FollowedPotential("f" + k, series.get(k - 1).intervals(), null));
    }
    return new UnitIntervals("t", null, followers);
  }
}
