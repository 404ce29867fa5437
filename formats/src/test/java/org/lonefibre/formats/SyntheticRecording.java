package org.lonefibre.formats;

import java.time.LocalDateTime;
import java.util.List;
import java.util.Optional;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Channel.Calibration;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.TimeBase;

/** A recording of whole converter steps of 0.5 uV, for writing and reading again. */
public final class SyntheticRecording implements Recording {

  private static final double STEP_UV = 0.5;

  private final Channel channel;
  private final List<Annotation> annotations;

  public SyntheticRecording(TimeBase timeBase, long samples, List<Annotation> annotations) {
    this.annotations = annotations;
    this.channel =
        new Channel(
            1,
            "needle",
            "uV",
            Calibration.MICROVOLT,
            timeBase,
            samples,
            List.of(new Segment(0, samples, 0)),
            -32_768 * STEP_UV,
            32_767 * STEP_UV,
            STEP_UV,
            "HP:500Hz LP:10000Hz");
  }

  /** The step that sample {@code n} has. */
  public static int step(long n) {
    return (int) ((n * 7919 + 13) % 65_536) - 32_768;
  }

  @Override
  public String format() {
    return "synthetic";
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
    return annotations;
  }

  @Override
  public List<Finding> findings() {
    return List.of();
  }

  @Override
  public void read(Channel of, long firstSample, double[] destination, int offset, int length) {
    for (int k = 0; k < length; k++) {
      destination[offset + k] = step(firstSample + k) * STEP_UV;
    }
  }

  @Override
  public void close() {}
}
