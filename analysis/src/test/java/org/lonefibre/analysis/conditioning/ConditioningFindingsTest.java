package org.lonefibre.analysis.conditioning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.lonefibre.signal.recording.Channel.Calibration;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.Severity;

class ConditioningFindingsTest {

  private static final double RATE_HZ = 50_000;

  private static ConditionedSignal condition(MemoryRecording recording) throws IOException {
    return condition(recording, ConditioningSettings.singleFibre());
  }

  private static ConditionedSignal condition(
      MemoryRecording recording, ConditioningSettings settings) throws IOException {
    return new Conditioner(settings).condition(recording, recording.channel());
  }

  private static Site clean(long seed) {
    return new Site(RATE_HZ, 10, seed).noise(15).unit(10, 2, 3000).unit(8, 3, 600);
  }

  private static List<FindingCode> codes(ConditionedSignal signal) {
    return signal.findings().stream().map(Finding::code).toList();
  }

  private static Finding finding(ConditionedSignal signal, FindingCode code) {
    Optional<Finding> found = signal.findings().stream().filter(f -> f.code() == code).findFirst();
    assertThat(found).as("%s in %s", code, signal.findings()).isPresent();
    return found.orElseThrow();
  }

  private static boolean isUnusable(ConditionedSignal signal, long sample) {
    return signal.unusable().stream()
        .anyMatch(s -> s.firstSample() <= sample && sample < s.endSample());
  }

  @ParameterizedTest(name = "{0} Hz, {1} uV, {2} a second, seed {3}")
  @Tag("property")
  @CsvSource({
    "20000, 20000, 10, 1",
    "50000, 20000, 10, 2",
    "50000, 300, 25, 3",
    "48828.125, 5000, 20, 4",
    "100000, 10000, 12, 5",
    "50000, 8000, 16.67, 6"
  })
  void aCleanRecordingWithStrongPotentialsHasNoFindings(
      double rateHz, double amplitudeUv, double firingHz, long seed) throws IOException {
    Site site =
        new Site(rateHz, 12, seed)
            .noise(12)
            .unit(firingHz, 4, amplitudeUv)
            .unit(firingHz * 0.8, 2, amplitudeUv / 3);
    assertThat(condition(site.recording()).findings()).isEmpty();
    double largest = Arrays.stream(site.samples).map(Math::abs).max().orElseThrow();
    // A writer that scales the signal to the range of the converter puts one sample at its end.
    ConditionedSignal scaled = condition(MemoryRecording.digitised(site.samples, rateHz, largest));
    assertThat(scaled.findings()).isEmpty();
    assertThat(scaled.unusable()).isEmpty();
  }

  @Test
  @Tag("property")
  void strongPotentialsWithoutNoiseInCoarseStepsAreNotClipped() throws IOException {
    Site site = new Site(RATE_HZ, 10, 9);
    for (int i = 0; i < 90; i++) {
      site.potential(0.1 + 0.1 * i, 4000);
    }
    for (int i = 0; i < site.samples.length; i++) {
      site.samples[i] = 5 * Math.rint(site.samples[i] / 5);
    }
    assertThat(codes(condition(site.recording()))).doesNotContain(FindingCode.CLIPPED);
  }

  @Test
  @Tag("property")
  void steadyStimulationIsNotTakenForTheMains() throws IOException {
    for (double rate : new double[] {5, 10, 20, 30}) {
      Site site = new Site(RATE_HZ, 10, 10).noise(10);
      for (double t = 0.05; t < 10; t += 1 / rate) {
        site.potential(t, 8000);
        site.potential(t + 0.006, 900);
      }
      assertThat(condition(site.recording()).findings()).isEmpty();
    }
  }

  @Test
  @Tag("property")
  void row25ClippingAtTheRailsIsFoundWhereItIs() throws IOException {
    Site site = new Site(RATE_HZ, 10, 11).noise(10).unit(9, 1, 500);
    site.potential(3.0, 12_000);
    site.potential(6.5, 12_000);
    MemoryRecording recording = MemoryRecording.digitised(site.samples, RATE_HZ, 4000);
    ConditionedSignal signal = condition(recording);
    Finding finding = finding(signal, FindingCode.CLIPPED);
    assertThat(finding.severity()).isEqualTo(Severity.CAUTION);
    assertThat(finding.evidence().stretches().get(0).startS()).isCloseTo(3.0, within(0.001));
    assertThat(isUnusable(signal, 150_000)).isTrue();
    assertThat(isUnusable(signal, 325_000)).isTrue();
    assertThat(isUnusable(signal, 250_000)).isFalse();
    assertThat(codes(signal)).containsOnly(FindingCode.CLIPPED);
  }

  @Test
  @Tag("property")
  void clippingBelowTheRailsOrWithoutThemIsFound() throws IOException {
    Site site = clean(12).offset(250);
    for (int i = 0; i < site.samples.length; i++) {
      site.samples[i] = Math.min(1000, site.samples[i]);
    }
    ConditionedSignal without = condition(site.recording());
    finding(without, FindingCode.CLIPPED);
    assertThat(without.unusable()).isNotEmpty();
    finding(condition(MemoryRecording.digitised(site.samples, RATE_HZ, 8000)), FindingCode.CLIPPED);
    for (int i = 0; i < site.samples.length; i++) {
      site.samples[i] *= -1;
    }
    finding(condition(site.recording()), FindingCode.CLIPPED);
  }

  @Test
  @Tag("property")
  void aConstantStretchIsFoundAndAShortOneIsNot() throws IOException {
    Site site = clean(13);
    Arrays.fill(site.samples, 100_000, 110_000, 4.5);
    ConditionedSignal signal = condition(site.recording());
    Finding finding = finding(signal, FindingCode.FLAT_LINE);
    assertThat(finding.evidence().stretches()).hasSize(1);
    assertThat(finding.evidence().stretches().get(0).startS()).isCloseTo(2.0, within(0.002));
    assertThat(finding.evidence().stretches().get(0).endS()).isCloseTo(2.2, within(0.002));
    assertThat(isUnusable(signal, 100_000)).isTrue();
    assertThat(isUnusable(signal, 109_999)).isTrue();
    Site blanked = clean(13);
    Arrays.fill(blanked.samples, 100_000, 100_250, 0);
    assertThat(condition(blanked.recording()).findings()).isEmpty();
  }

  @Test
  @Tag("property")
  void row25WrapAroundIsFoundAndASaturatedArtefactIsNotOne() throws IOException {
    Site site = clean(14);
    site.potential(4.0, 15_000);
    double[] wrapped = site.samples.clone();
    for (int i = 0; i < wrapped.length; i++) {
      wrapped[i] -= 8000 * Math.floor((wrapped[i] + 4000) / 8000);
    }
    ConditionedSignal signal = condition(MemoryRecording.digitised(wrapped, RATE_HZ, 4000));
    finding(signal, FindingCode.WRAP_AROUND);
    assertThat(isUnusable(signal, 200_000)).isTrue();
    assertThat(isUnusable(signal, 260_000)).isFalse();
    double[] integers = new double[wrapped.length];
    for (int i = 0; i < wrapped.length; i++) {
      integers[i] = Math.rint(wrapped[i] * 8.19);
    }
    finding(
        condition(MemoryRecording.of(integers, RATE_HZ, Calibration.NONE, null, "")),
        FindingCode.WRAP_AROUND);

    Site stimulated = clean(15);
    for (int at = 5_000; at < stimulated.samples.length; at += 5_000) {
      Arrays.fill(stimulated.samples, at, at + 6, 9e5);
      Arrays.fill(stimulated.samples, at + 6, at + 12, -9e5);
    }
    assertThat(codes(condition(MemoryRecording.digitised(stimulated.samples, RATE_HZ, 4000))))
        .contains(FindingCode.CLIPPED)
        .doesNotContain(FindingCode.WRAP_AROUND);
  }

  @ParameterizedTest
  @Tag("property")
  @ValueSource(doubles = {50, 60, 49.9, 60.1})
  void mainsAreFoundAtTheirFrequency(double frequencyHz) throws IOException {
    Site site = clean(16).sine(frequencyHz, 120);
    Finding finding = finding(condition(site.recording()), FindingCode.MAINS);
    assertThat(finding.severity()).isEqualTo(Severity.NOTE);
    assertThat(finding.text()).contains(Math.rint(frequencyHz) == 50 ? "50 Hz" : "60 Hz");
    assertThat(finding.evidence().quantities().get(0).value()).isCloseTo(120, within(12.0));
  }

  @Test
  @Tag("property")
  void multiplesThatPassTheFilterMakeMainsACautionAndRemovalTakesThemOut() throws IOException {
    Site site = clean(17).sine(50, 100).sine(650, 60);
    MemoryRecording recording = site.recording();
    assertThat(finding(condition(recording), FindingCode.MAINS).severity())
        .isEqualTo(Severity.CAUTION);
    ConditionedSignal removed =
        condition(
            recording, ConditioningSettings.singleFibre().withMainsRemoval(MainsRemoval.HZ_50));
    finding(removed, FindingCode.MAINS_REMOVED);
    assertThat(removed.record().mainsRemovedHz()).isEqualTo(50.0);
    assertThat(finding(removed, FindingCode.MAINS).severity()).isEqualTo(Severity.NOTE);
    double reference = condition(clean(17).recording()).noiseUv();
    assertThat(removed.noiseUv()).isCloseTo(reference, within(0.03 * reference));
    assertThat(condition(clean(17).recording()).record().mainsRemovedHz()).isNull();
  }

  @Test
  @Tag("property")
  void aSlowBaselineIsDriftAndAnOffsetIsNot() throws IOException {
    finding(condition(clean(18).sine(0.2, 2000).recording()), FindingCode.DRIFT);
    assertThat(condition(clean(18).offset(20_000).recording()).findings()).isEmpty();
  }

  @Test
  @Tag("property")
  void row25GarbageAtTheStartIsReplacedAndAPotentialAtTheStartIsNot() throws IOException {
    Site site = clean(19);
    double[] untouched = read(condition(site.recording()));
    site.samples[0] = -32_768;
    ConditionedSignal signal = condition(site.recording());
    Finding finding = finding(signal, FindingCode.MISSING_SAMPLES);
    assertThat(finding.severity()).isEqualTo(Severity.NOTE);
    double[] repaired = read(signal);
    for (int i = 0; i < 3000; i++) {
      assertThat(Math.abs(repaired[i] - untouched[i])).isLessThan(60);
    }
    Site starting = clean(19);
    starting.potential(20e-6, 3000);
    assertThat(condition(starting.recording()).findings()).isEmpty();
  }

  @Test
  @Tag("property")
  void missingSamplesAreBridgedAndMarked() throws IOException {
    Site site = clean(20);
    Arrays.fill(site.samples, 131_000, 131_200, Double.NaN);
    site.samples[0] = Double.NaN;
    MemoryRecording recording = site.recording();
    ConditionedSignal signal = condition(recording);
    Finding finding = finding(signal, FindingCode.MISSING_SAMPLES);
    assertThat(finding.evidence().stretches()).hasSize(2);
    double[] whole = read(signal);
    assertThat(Arrays.stream(whole).allMatch(Double::isFinite)).isTrue();
    assertThat(isUnusable(signal, 131_100)).isTrue();
    assertThat(isUnusable(signal, 0)).isTrue();
    ConditionedSignal small =
        new Conditioner(ConditioningSettings.singleFibre(), new BlockMemory(1024, 1))
            .condition(recording, recording.channel());
    double[] blocks = read(small);
    for (int i = 0; i < whole.length; i++) {
      assertThat(Math.abs(blocks[i] - whole[i])).isLessThan(1e-5);
    }
    assertThat(small.unusable()).isEqualTo(signal.unusable());
  }

  @ParameterizedTest(name = "{0}")
  @Tag("property")
  @CsvSource(
      delimiter = '|',
      value = {
        "HP:500Hz LP:10kHz|500|10000",
        "HP:2000.0 LP:5000.0|2000|5000",
        "hp = 1 kHz; lp = 8,5k|1000|8500",
        "HighPass: 0.5kHz, LowPass: 20 kHz, Notch: 50 Hz|500|20000",
        "HP:DC LP:3000Hz|-1|3000",
        "HPF 20Hz|20|-1",
        "HP: 1e3 Hz|1000|-1",
        "amplifier help 5|-1|-1",
        "''|-1|-1"
      })
  void aPrefilterFieldIsReadHoweverItIsWritten(String text, double highPassHz, double lowPassHz) {
    assertThat(new Prefilter(text).findHighPassHz().orElse(-1)).isEqualTo(highPassHz);
    assertThat(new Prefilter(text).findLowPassHz().orElse(-1)).isEqualTo(lowPassHz);
  }

  @Test
  @Tag("property")
  void filteringTwiceIsSaidOnlyWhereItMatters() throws IOException {
    ConditionedSignal twice = condition(withPrefilter("HP:1000Hz LP:8kHz N:50Hz"));
    List<Finding> findings =
        twice.findings().stream().filter(f -> f.code() == FindingCode.FILTERED_TWICE).toList();
    assertThat(findings)
        .extracting(Finding::severity)
        .containsExactly(Severity.CAUTION, Severity.NOTE);
    assertThat(twice.record().prefilter()).isEqualTo("HP:1000Hz LP:8kHz N:50Hz");
    assertThat(condition(withPrefilter("HP:5Hz LP:20kHz")).findings()).isEmpty();
    assertThat(condition(withPrefilter("")).findings()).isEmpty();
  }

  private static MemoryRecording withPrefilter(String prefilter) {
    return MemoryRecording.of(clean(21).samples, RATE_HZ, Calibration.MICROVOLT, null, prefilter);
  }

  @Test
  @Tag("property")
  void highNoiseIsMeasuredAgainstTheNeedlesSmallestPotential() throws IOException {
    MemoryRecording recording = new Site(RATE_HZ, 6, 22).noise(30).recording();
    assertThat(condition(recording).findings()).isEmpty();
    finding(condition(recording, ConditioningSettings.concentric()), FindingCode.HIGH_NOISE);
  }

  @Test
  @Tag("property")
  void row3AmplitudesAThousandTimesTooLargeOrSmallAreImplausible() throws IOException {
    for (double factor : new double[] {1000, 0.001}) {
      Site site = clean(23);
      for (int i = 0; i < site.samples.length; i++) {
        site.samples[i] *= factor;
      }
      assertThat(codes(condition(site.recording())))
          .containsExactly(FindingCode.IMPLAUSIBLE_AMPLITUDE);
      assertThat(
              codes(
                  condition(MemoryRecording.of(site.samples, RATE_HZ, Calibration.NONE, null, ""))))
          .containsExactly(FindingCode.UNCALIBRATED);
    }
  }

  @ParameterizedTest
  @Tag("property")
  @CsvSource({"4000, EXCLUSION", "9999, EXCLUSION", "10000, CAUTION", "19999, CAUTION", "20000,"})
  void slowSamplingIsSaidAndNothingFails(double rateHz, @Nullable Severity severity)
      throws IOException {
    Site site = new Site(rateHz, 10, 24).noise(5).unit(10, 1, 500);
    ConditionedSignal signal = condition(site.recording());
    List<Finding> slow =
        signal.findings().stream().filter(f -> f.code() == FindingCode.SAMPLING_TOO_SLOW).toList();
    if (severity == null) {
      assertThat(slow).isEmpty();
    } else {
      assertThat(slow).extracting(Finding::severity).containsExactly(severity);
    }
  }

  @Test
  @Tag("contract")
  void oddRecordingsGiveAValueAndNeverFail() throws IOException {
    for (double rateHz : new double[] {1, 200, 1000, 50_000}) {
      for (int length : new int[] {1, 2, 15, 16, 70, 5000}) {
        double[] samples = new double[length];
        ConditionedSignal constant = condition(MemoryRecording.of(samples, rateHz));
        assertThat(constant.noiseUv()).isPositive().isFinite();
        assertThat(constant.causalNoiseUv()).isPositive().isFinite();
        assertThat(constant.noiseAutocorrelation(5)).hasSize(6).doesNotContain(Double.NaN);
        assertThat(codes(constant).contains(FindingCode.SHORT_RECORDING))
            .isEqualTo(length < 5 * rateHz);
        Arrays.fill(samples, Double.NaN);
        ConditionedSignal nothing = condition(MemoryRecording.of(samples, rateHz));
        assertThat(Arrays.stream(read(nothing)).allMatch(Double::isFinite)).isTrue();
        assertThat(nothing.unusable()).containsExactly(new Segment(0, length, 0));
      }
    }
  }

  private static double[] read(ConditionedSignal signal) {
    double[] samples = new double[(int) (signal.endSample() - signal.firstSample())];
    signal.read(signal.firstSample(), samples, 0, samples.length);
    return samples;
  }
}
