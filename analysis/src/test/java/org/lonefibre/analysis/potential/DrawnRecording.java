package org.lonefibre.analysis.potential;

import java.io.IOException;
import java.time.LocalDateTime;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.lonefibre.analysis.SiteAnalyser;
import org.lonefibre.analysis.SiteRequest;
import org.lonefibre.analysis.settings.AnalysisSettings;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Channel.Calibration;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.TimeBase;

/**
 * A recording drawn sample by sample at 50 kHz: potentials of closed forms that belong to no model
 * of a fibre, in white noise.
 */
public final class DrawnRecording implements Recording {

  static final double RATE_HZ = 50_000;
  private static final double REACH_S = 0.003;

  private final double[] samples;
  private final Channel channel;
  private final Random random;

  public DrawnRecording(long seed, double durationS, double noiseUv) {
    this.random = new Random(seed);
    this.samples = new double[(int) Math.round(durationS * RATE_HZ)];
    for (int k = 0; k < samples.length; k++) {
      samples[k] = noiseUv * random.nextGaussian();
    }
    this.channel =
        new Channel(
            1,
            "EMG",
            "uV",
            Calibration.MICROVOLT,
            TimeBase.ofHz(RATE_HZ),
            samples.length,
            List.of(new Segment(0, samples.length, 0)),
            null,
            null,
            null,
            "");
  }

  /** A form over time in us, of a maximum minus minimum of about 1. */
  public interface Form {

    /** Steeply down, with a slower return. */
    Form BIPHASIC = timeUs -> 0.55 * bell(timeUs + 70, 60) - 0.5 * bell(timeUs - 70, 80);

    /** Up, far down and up again. */
    Form TRIPHASIC =
        timeUs ->
            0.35 * bell(timeUs + 150, 70) - 0.6 * bell(timeUs, 75) + 0.35 * bell(timeUs - 170, 90);

    /** Of a fibre farther away: slower, with a long tail. */
    Form SLOW =
        timeUs ->
            0.2 * bell(timeUs + 260, 150)
                - 0.55 * bell(timeUs + 20, 120)
                + 0.45 * bell(timeUs - 240, 170);

    /** Of a stimulus: a short pulse and a slow return. */
    Form ARTEFACT =
        timeUs -> bell(timeUs - 60, 40) - (timeUs < 100 ? 0 : 0.2 * Math.exp(-timeUs / 600));

    double at(double timeUs);

    private static double bell(double timeUs, double widthUs) {
      return Math.exp(-timeUs * timeUs / (2 * widthUs * widthUs));
    }
  }

  /** Times of discharges about 80 ms apart, through the whole recording. */
  public double[] firing() {
    double[] times = new double[(int) (samples.length / RATE_HZ / 0.08) - 1];
    double time = 0.05;
    for (int d = 0; d < times.length; d++) {
      times[d] = time;
      time += 0.08 * (1 + 0.12 * Math.max(-2.5, Math.min(2.5, random.nextGaussian())));
    }
    return times;
  }

  /** Adds a potential after each discharge; its times in s. NaN in {@code times} leaves it out. */
  public double[] add(Form form, double sizeUv, double[] times, double lagUs, double movesUs) {
    double[] arrivals = new double[times.length];
    for (int d = 0; d < times.length; d++) {
      double moved = movesUs * Math.max(-3.5, Math.min(3.5, random.nextGaussian()));
      arrivals[d] = times[d] + (lagUs + moved) * 1e-6;
      if (!Double.isNaN(arrivals[d])) {
        put(form, sizeUv, arrivals[d]);
      }
    }
    return arrivals;
  }

  private void put(Form form, double sizeUv, double arrivalS) {
    int from = (int) Math.max(0, Math.ceil((arrivalS - REACH_S) * RATE_HZ));
    int to = (int) Math.min(samples.length, (arrivalS + REACH_S) * RATE_HZ);
    for (int k = from; k < to; k++) {
      samples[k] += sizeUv * form.at((k / RATE_HZ - arrivalS) * 1e6);
    }
  }

  /** What the chain makes of it with a single-fibre needle. */
  RecordingResult analyse() throws IOException {
    return new SiteAnalyser(AnalysisSettings.defaultsFor("single-fibre"))
        .analyse(this, SiteRequest.whole("drawn.edf", "", channel, "site"));
  }

  /** The same with stimuli at these times. */
  RecordingResult analyse(double[] stimulusTimesS) throws IOException {
    return new SiteAnalyser(AnalysisSettings.defaultsFor("single-fibre"))
        .analyse(
            this,
            new SiteRequest(
                "drawn.edf",
                "",
                channel,
                null,
                Arrays.stream(stimulusTimesS).boxed().toList(),
                "site",
                0,
                Double.POSITIVE_INFINITY,
                Activation.STIMULATED));
  }

  @Override
  public String format() {
    return "drawn";
  }

  @Override
  public Optional<LocalDateTime> findStart() {
    return Optional.empty();
  }

  @Override
  public List<Channel> channels() {
    return List.of(channel);
  }

  @Override
  public List<Annotation> annotations() {
    return List.of();
  }

  @Override
  public List<Finding> findings() {
    return List.of();
  }

  @Override
  public void read(Channel wanted, long firstSample, double[] destination, int offset, int length) {
    System.arraycopy(samples, (int) firstSample, destination, offset, length);
  }

  @Override
  public void close() {}
}
