package org.lonefibre.model.simulation;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.lonefibre.model.fibre.FibrePotential;
import org.lonefibre.model.motorunit.UnitActivity;
import org.lonefibre.signal.random.RandomStream;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.TimeBase;

/** Samples of one needle channel in the making, and the recording they become. */
final class Canvas {

  private static final double MARKER_S = 2e-4;
  private static final int MARKER_HEIGHT = 1000;

  private final TimeBase timeBase;
  private final AmplifierSettings settings;
  private final Amplifier amplifier;
  private final double sampleUs;
  private final double[] samples;

  Canvas(
      double samplingRateHz, double durationS, AmplifierSettings settings, double reddeningRatio) {
    this.timeBase = TimeBase.ofHz(samplingRateHz);
    this.settings = settings;
    this.amplifier = new Amplifier(settings, timeBase, reddeningRatio);
    this.sampleUs = timeBase.durationUs(1);
    this.samples = new double[(int) Math.rint(timeBase.positionSamples(durationS))];
  }

  double lowPassHz() {
    return amplifier.lowPassHz();
  }

  void add(Template template, double timeS) {
    template.addTo(samples, timeS * 1e6, sampleUs);
  }

  void add(SampledTemplate template, double timeS) {
    template.addTo(samples, timeS * 1e6);
  }

  /** A distant fibre's potential, ready to be added many times. */
  SampledTemplate sampled(FibrePotential potential, double referenceUs) {
    return new SampledTemplate(potential, referenceUs, sampleUs, lowPassHz());
  }

  void add(Template[] templates, UnitActivity activity) {
    for (int f = 0; f < templates.length; f++) {
      for (int i = 0; i < activity.discharges(); i++) {
        if (activity.present(f, i)) {
          add(templates[f], activity.arrivalTimeS(f, i));
        }
      }
    }
  }

  /** Converts the samples and closes the work. */
  SimulatedRecording finish(
      double[] stimulusTimesS, StimulusMarker marker, RandomStream stream, RecordingTruth truth) {
    List<Channel> channels = new ArrayList<>();
    List<float[]> stored = new ArrayList<>();
    stored.add(amplifier.convert(samples, stream.child("amplifier")));
    String prefilter =
        String.format(
            Locale.ROOT, "HP:%.1fHz LP:%.0fHz", settings.highPassHz(), amplifier.lowPassHz());
    channels.add(channel(1, "EMG", prefilter));
    if (marker == StimulusMarker.CHANNEL) {
      stored.add(marks(stimulusTimesS));
      channels.add(channel(2, "Stimulus", ""));
    }
    List<Annotation> annotations = new ArrayList<>();
    if (marker == StimulusMarker.ANNOTATION) {
      for (double timeS : stimulusTimesS) {
        annotations.add(new Annotation(timeS, null, "stimulus"));
      }
    }
    return new SimulatedRecording(channels, annotations, stored.toArray(new float[0][]), truth);
  }

  private float[] marks(double[] stimulusTimesS) {
    float[] marks = new float[samples.length];
    int width = Math.max(1, (int) timeBase.positionSamples(MARKER_S));
    double resolution = settings.resolutionUv();
    float height = (float) (Math.rint(MARKER_HEIGHT / resolution) * resolution);
    height = Math.min(height, (float) (32_767 * resolution));
    for (double timeS : stimulusTimesS) {
      int first = (int) Math.ceil(timeBase.positionSamples(timeS));
      for (int i = Math.max(0, first); i < first + width && i < marks.length; i++) {
        marks[i] = height;
      }
    }
    return marks;
  }

  private Channel channel(int number, String label, String prefilter) {
    double resolution = settings.resolutionUv();
    return new Channel(
        number,
        label,
        "uV",
        Channel.Calibration.MICROVOLT,
        timeBase,
        samples.length,
        List.of(new Segment(0, samples.length, 0)),
        -32_768 * resolution,
        32_767 * resolution,
        resolution,
        prefilter);
  }
}
