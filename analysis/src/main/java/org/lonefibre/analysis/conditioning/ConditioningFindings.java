package org.lonefibre.analysis.conditioning;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import org.lonefibre.signal.filter.SecondOrderSections;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Channel.Calibration;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Evidence.Quantity;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.Segment;

/**
 * What was noticed while conditioning, in words.
 *
 * <p>Engineering choices, unless said otherwise: mains are a note from an amplitude of the noise's
 * standard deviation on and a caution when 0.3 of it is left after conditioning; drift is a note
 * from 20 times the noise on. Sampling: under 10 kHz unmeasurable, under 20 kHz a caution
 * (published: 20 kHz or more, see reference/rules.csv, sampling). A fibre potential is 0.05 to 20
 * mV (common practice, no source).
 */
final class ConditioningFindings {

  private static final int MOST_STRETCHES = 100;
  private static final double MAINS_NOTE_RATIO = 1;
  private static final double MAINS_CAUTION_RATIO = 0.3;
  private static final double DRIFT_RATIO = 20;
  private static final double UNMEASURABLE_BELOW_HZ = 10_000;
  private static final double CAUTION_BELOW_HZ = 20_000;
  private static final double SMALLEST_FIBRE_UV = 50;
  private static final double LARGEST_FIBRE_UV = 20_000;
  private static final double SUPERPOSED = 2;
  private static final double LOWEST_NOISE_UV = 0.2;
  private static final double HIGHEST_NOISE_UV = 1000;

  private final ConditioningSettings settings;
  private final ConditioningRecord record;
  private final Channel channel;
  private final List<Segment> segments;
  private final RawFacts facts;
  private final NoiseEstimate noise;
  private final SecondOrderSections filter;
  private final List<Double> notchesHz;
  private final SoundTraces sound;
  private final double rateHz;
  private final String unit;
  private final List<Finding> list = new ArrayList<>();

  ConditioningFindings(
      ConditioningSettings settings,
      ConditioningRecord record,
      Channel channel,
      List<Segment> segments,
      RawFacts facts,
      NoiseEstimate noise,
      SecondOrderSections filter,
      List<Double> notchesHz,
      SoundTraces sound) {
    this.settings = settings;
    this.record = record;
    this.channel = channel;
    this.segments = segments;
    this.facts = facts;
    this.noise = noise;
    this.filter = filter;
    this.notchesHz = notchesHz;
    this.sound = sound;
    this.rateHz = channel.timeBase().samplingRateHz();
    String written = channel.unit().isBlank() ? "units of the file" : channel.unit().strip();
    this.unit = channel.calibration() == Calibration.MICROVOLT ? "uV" : written;
  }

  /** All of them, those of the file first. */
  List<Finding> list() {
    sampling();
    duration();
    calibration();
    filteredBefore();
    stretches();
    mains();
    drift();
    noise();
    amplitude();
    sound();
    return List.copyOf(list);
  }

  private void sampling() {
    Evidence evidence = Evidence.of(new Quantity("sampling rate", rateHz, "Hz"));
    if (rateHz < UNMEASURABLE_BELOW_HZ) {
      list.add(
          Finding.exclusion(
              FindingCode.SAMPLING_TOO_SLOW,
              text(
                  "The sampling rate is %s Hz. Jitter needs 10000 Hz or more: it cannot be measured"
                      + " here.",
                  number(rateHz)),
              evidence));
    } else if (rateHz < CAUTION_BELOW_HZ) {
      list.add(
          Finding.caution(
              FindingCode.SAMPLING_TOO_SLOW,
              text(
                  "The sampling rate is %s Hz; 20000 Hz or more is advised. Arrival times carry a"
                      + " larger error.",
                  number(rateHz)),
              evidence));
    }
  }

  private void duration() {
    long samples = segments.stream().mapToLong(Segment::sampleCount).sum();
    double durationS = channel.timeBase().timeS((double) samples);
    if (durationS < settings.shortestS()) {
      list.add(
          Finding.caution(
              FindingCode.SHORT_RECORDING,
              text(
                  "The recording lasts %s s; %s s or more are advised for 50 differences.",
                  number(durationS), number(settings.shortestS())),
              Evidence.of(new Quantity("duration", durationS, "s"))));
    }
  }

  private void calibration() {
    if (channel.calibration() == Calibration.NONE) {
      list.add(
          Finding.note(
              FindingCode.UNCALIBRATED,
              "The unit of the signal is missing or cannot be read. Amplitudes are unknown; times"
                  + " are not affected.",
              Evidence.NONE));
    }
  }

  private void filteredBefore() {
    Prefilter prefilter = new Prefilter(channel.prefilter());
    OptionalDouble highPass = prefilter.findHighPassHz();
    OptionalDouble lowPass = prefilter.findLowPassHz();
    OptionalDouble notch = prefilter.findNotchHz();
    if (highPass.isPresent() && highPass.getAsDouble() >= record.highPassHz()) {
      list.add(
          Finding.caution(
              FindingCode.FILTERED_TWICE,
              text(
                  "The file was high-passed at %s Hz before; this is at or above the %s Hz used"
                      + " here. Potentials are smaller and their shape differs.",
                  number(highPass.getAsDouble()), number(record.highPassHz())),
              Evidence.of(new Quantity("earlier high-pass", highPass.getAsDouble(), "Hz"))));
    }
    Double ownLowPassHz = record.lowPassHz();
    if (lowPass.isPresent()
        && ownLowPassHz != null
        && lowPass.getAsDouble() <= settings.lowPassHz()
        && lowPass.getAsDouble() < rateHz / 2) {
      list.add(
          Finding.note(
              FindingCode.FILTERED_TWICE,
              text(
                  "The file was low-passed at %s Hz before; %s Hz is used here. Rise times are"
                      + " longer.",
                  number(lowPass.getAsDouble()), number(ownLowPassHz)),
              Evidence.of(new Quantity("earlier low-pass", lowPass.getAsDouble(), "Hz"))));
    }
    if (!notchesHz.isEmpty()) {
      String removed = notchesHz.stream().map(hz -> number(hz)).collect(Collectors.joining(", "));
      list.add(
          Finding.note(
              FindingCode.MAINS_REMOVED,
              text(
                  "The mains were removed on request, at %s Hz.%s",
                  removed,
                  notch.isPresent() ? " The file says it had a notch filter already." : ""),
              Evidence.of(new Quantity("mains frequency", notchesHz.get(0), "Hz"))));
    }
  }

  private void stretches() {
    stretch(FindingCode.CLIPPED, facts.clipped(), "The signal is clipped");
    stretch(FindingCode.FLAT_LINE, facts.flat(), "The signal is constant");
    stretch(
        FindingCode.WRAP_AROUND, facts.wrapped(), "The signal wraps around the converter's range");
    stretch(FindingCode.MISSING_SAMPLES, facts.missing(), "Samples are missing");
    if (!facts.garbage().isEmpty()) {
      long samples = facts.garbage().stream().mapToLong(Stretch::length).sum();
      list.add(
          Finding.note(
              FindingCode.MISSING_SAMPLES,
              text(
                  "The first %s of the signal jumped to the rest by more than twice the largest"
                      + " other step and %s replaced.",
                  samples == 1 ? "sample" : samples + " samples", samples == 1 ? "was" : "were"),
              evidence(facts.garbage())));
    }
  }

  private void stretch(FindingCode code, List<Stretch> stretches, String what) {
    if (stretches.isEmpty()) {
      return;
    }
    long samples = stretches.stream().mapToLong(Stretch::length).sum();
    list.add(
        Finding.caution(
            code,
            text(
                "%s in %d %s, %s ms together. Nothing is measured there.",
                what,
                stretches.size(),
                stretches.size() == 1 ? "stretch" : "stretches",
                number(channel.timeBase().durationMs((double) samples))),
            evidence(stretches)));
  }

  private Evidence evidence(List<Stretch> stretches) {
    List<Evidence.Stretch> shown = new ArrayList<>();
    for (Stretch stretch : stretches) {
      for (Segment segment : segments) {
        boolean inside =
            stretch.first() >= segment.firstSample() && stretch.first() < segment.endSample();
        if (inside && shown.size() < MOST_STRETCHES) {
          shown.add(
              new Evidence.Stretch(timeS(segment, stretch.first()), timeS(segment, stretch.end())));
        }
      }
    }
    return Evidence.ofStretches(shown);
  }

  private double timeS(Segment segment, long sample) {
    return segment.startS() + channel.timeBase().timeS((double) (sample - segment.firstSample()));
  }

  private void mains() {
    MainsLine spectrum = facts.slow().mains();
    for (double frequencyHz : new double[] {50, 60}) {
      MainsLine.Line line =
          spectrum.at(
              frequencyHz,
              hz -> {
                double once = filter.gainRatio(hz, rateHz);
                return once * once;
              });
      if (line.amplitude() <= 0 || line.amplitude() < MAINS_NOTE_RATIO * noise.zeroPhaseSd()) {
        continue;
      }
      Evidence evidence =
          Evidence.of(
              new Quantity("mains amplitude", line.amplitude(), unit),
              new Quantity("left after conditioning, RMS", line.leftRms(), unit));
      String text =
          text(
              "Mains interference of %s Hz, %s %s peak in the recording; conditioning leaves %s %s"
                  + " RMS of it and its multiples beside a noise of %s %s.",
              number(frequencyHz),
              number(line.amplitude()),
              unit,
              number(line.leftRms()),
              unit,
              number(noise.zeroPhaseSd()),
              unit);
      list.add(
          line.leftRms() > MAINS_CAUTION_RATIO * noise.zeroPhaseSd()
              ? Finding.caution(FindingCode.MAINS, text, evidence)
              : Finding.note(FindingCode.MAINS, text, evidence));
    }
  }

  private void drift() {
    double range = facts.slow().baselineRange();
    if (noise.zeroPhaseSd() > 0 && range > DRIFT_RATIO * noise.zeroPhaseSd()) {
      list.add(
          Finding.note(
              FindingCode.DRIFT,
              text(
                  "The baseline moves slowly over %s %s; conditioning takes it out.",
                  number(range), unit),
              Evidence.of(facts.baselineRange(unit))));
    }
  }

  private void noise() {
    if (channel.calibration() == Calibration.MICROVOLT
        && noise.zeroPhaseSd() > settings.highNoiseUv()
        && noise.zeroPhaseSd() <= HIGHEST_NOISE_UV) {
      list.add(
          Finding.caution(
              FindingCode.HIGH_NOISE,
              text(
                  "The noise is %s uV; over %s uV a potential of the smallest size that is accepted"
                      + " is less than 5 times the noise.",
                  number(noise.zeroPhaseSd()), number(settings.highNoiseUv())),
              Evidence.of(new Quantity("noise", noise.zeroPhaseSd(), "uV"))));
    }
  }

  private void amplitude() {
    if (channel.calibration() != Calibration.MICROVOLT || noise.zeroPhaseSd() <= 0) {
      return;
    }
    double largest = noise.largestPeakToPeak();
    boolean tooLarge =
        noise.zeroPhaseSd() > HIGHEST_NOISE_UV
            || noise.usualPeakToPeak() > SUPERPOSED * LARGEST_FIBRE_UV;
    boolean tooSmall = noise.zeroPhaseSd() < LOWEST_NOISE_UV && largest < SMALLEST_FIBRE_UV;
    if (tooLarge || tooSmall) {
      list.add(
          Finding.caution(
              FindingCode.IMPLAUSIBLE_AMPLITUDE,
              text(
                  "The largest deflection is %s uV peak to peak and the noise %s uV; a fibre"
                      + " potential is 50 to 20000 uV. The unit in the file may be wrong.",
                  number(largest), number(noise.zeroPhaseSd())),
              Evidence.of(
                  new Quantity("largest deflection", largest, "uV"),
                  new Quantity("noise", noise.zeroPhaseSd(), "uV"))));
    }
  }

  private void sound() {
    OptionalDouble wallHz = sound.findWallHz();
    if (wallHz.isPresent()) {
      list.add(
          Finding.caution(
              FindingCode.LOSSY_CODING,
              text(
                  "The spectrum ends in a wall at %s Hz, far below half the sampling rate, as lossy"
                      + " coding or resampling leaves it. Coding moves the parts of a waveform by"
                      + " more than the jitter: do not rely on the jitter unless the recording is"
                      + " known to be uncompressed.",
                  number(Math.rint(wallHz.getAsDouble() / 100) * 100)),
              Evidence.of(new Quantity("end of the spectrum", wallHz.getAsDouble(), "Hz"))));
    }
    if (sound.isGainMoving()) {
      list.add(
          Finding.caution(
              FindingCode.AUTOMATIC_GAIN,
              "The noise becomes small where the signal is large, as an automatic gain makes it."
                  + " Amplitudes, and times taken at a fraction of the amplitude, mean nothing;"
                  + " record with a fixed gain.",
              Evidence.NONE));
    }
  }

  private static String text(String pattern, Object... values) {
    return String.format(Locale.ROOT, pattern, values);
  }

  /** Three digits or more, without a superfluous zero at the end. */
  private static String number(double value) {
    if (value == Math.rint(value) && Math.abs(value) < 1e9) {
      return String.format(Locale.ROOT, "%.0f", value);
    }
    if (Math.abs(value) >= 100) {
      return String.format(Locale.ROOT, "%.0f", value);
    }
    return new java.math.BigDecimal(value)
        .round(new java.math.MathContext(3))
        .stripTrailingZeros()
        .toPlainString();
  }
}
