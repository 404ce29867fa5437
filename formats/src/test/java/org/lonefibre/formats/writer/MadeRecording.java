package org.lonefibre.formats.writer;

import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Channel.Calibration;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.TimeBase;

/** A recording in memory. */
public final class MadeRecording implements Recording {

  public static final LocalDateTime START = LocalDateTime.of(2026, 11, 24, 10, 20, 30);

  private final List<Channel> channels = new ArrayList<>();
  private final List<double[]> samples = new ArrayList<>();
  private final List<Annotation> annotations = new ArrayList<>();

  /** Two channels at 48,828.125 Hz with steps of 0.2 and 0.05 uV, and site annotations. */
  public static MadeRecording jitterStudy(int count) {
    MadeRecording made = new MadeRecording();
    Random random = new Random(3);
    made.channel("EMG 1", new TimeBase(390_625, 8), steps(random, count, 0.2), 0.2);
    made.channel("EMG 2", new TimeBase(390_625, 8), steps(random, count, 0.05), 0.05);
    made.annotate(0, "site 1");
    made.annotate(0.5123457, "site 2");
    return made;
  }

  /** Whole numbers of steps between the rails of 16 bits, rails included. */
  public static double[] steps(Random random, int count, double stepUv) {
    double[] values = new double[count];
    for (int k = 0; k < count; k++) {
      values[k] = stepUv * (random.nextInt(65_536) - 32_768);
    }
    values[0] = -32_768 * stepUv;
    values[count - 1] = 32_767 * stepUv;
    return values;
  }

  public MadeRecording channel(
      String label, TimeBase timeBase, double[] values, @Nullable Double stepUv) {
    samples.add(values);
    channels.add(
        new Channel(
            channels.size() + 1,
            label,
            "uV",
            Calibration.MICROVOLT,
            timeBase,
            values.length,
            List.of(new Segment(0, values.length, 0)),
            stepUv == null ? null : -32_768 * stepUv,
            stepUv == null ? null : 32_767 * stepUv,
            stepUv,
            "HP:500Hz LP:10000Hz"));
    return this;
  }

  public MadeRecording annotate(double startS, String text) {
    annotations.add(new Annotation(startS, null, text));
    return this;
  }

  public double[] samples(int index) {
    return samples.get(index);
  }

  @Override
  public String format() {
    return "made";
  }

  @Override
  public Optional<LocalDateTime> findStart() {
    return Optional.of(START);
  }

  @Override
  public List<Channel> channels() {
    return channels;
  }

  @Override
  public List<Annotation> annotations() {
    return annotations;
  }

  @Override
  public List<Finding> findings() {
    return List.of();
  }

  @Override
  public void read(
      Channel channel, long firstSample, double[] destination, int offset, int length) {
    System.arraycopy(
        samples.get(channel.number() - 1), (int) firstSample, destination, offset, length);
  }

  @Override
  public void close() {}
}
