package org.lonefibre.model.simulation;

import java.time.LocalDateTime;
import java.util.List;
import java.util.Optional;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.Recording;

/**
 * A recording made by simulation, with its truth.
 *
 * <ul>
 *   <li>Every sample is a whole number of converter steps, {@link Channel#resolutionUv()}, between
 *       the rails: written with 16 bits over the rails it reads back to the same bits.
 *   <li>It has no date.
 *   <li>Thread rule: immutable.
 * </ul>
 */
public final class SimulatedRecording implements Recording {

  private final List<Channel> channels;
  private final List<Annotation> annotations;
  private final float[][] samples;
  private final RecordingTruth truth;

  SimulatedRecording(
      List<Channel> channels,
      List<Annotation> annotations,
      float[][] samples,
      RecordingTruth truth) {
    this.channels = List.copyOf(channels);
    this.annotations = List.copyOf(annotations);
    this.samples = samples;
    this.truth = truth;
  }

  /** What truly happened. */
  public RecordingTruth truth() {
    return truth;
  }

  @Override
  public String format() {
    return "simulation";
  }

  @Override
  public Optional<LocalDateTime> findStart() {
    return Optional.empty();
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
    int number = channels.indexOf(channel);
    if (number < 0) {
      throw new IllegalArgumentException(
          "channel " + channel.label() + " does not belong to this recording");
    }
    float[] source = samples[number];
    if (firstSample < 0 || length < 0 || firstSample + length > source.length) {
      throw new IllegalArgumentException(
          "samples "
              + firstSample
              + " to "
              + (firstSample + length)
              + " lie outside 0 to "
              + source.length);
    }
    for (int i = 0; i < length; i++) {
      destination[offset + i] = source[(int) firstSample + i];
    }
  }

  @Override
  public void close() {}
}
