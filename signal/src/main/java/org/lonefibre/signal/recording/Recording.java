package org.lonefibre.signal.recording;

import java.io.IOException;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Optional;

/**
 * An open recording: what the file declares, and its samples in blocks.
 *
 * <ul>
 *   <li>Samples are microvolts where {@link Channel#calibration()} says so, else numbers in the
 *       unit as written.
 *   <li>Sample indices run over the channel as stored, gaps left out; {@link Channel#segments()}
 *       says where time jumps.
 *   <li>Thread rule: reading from several threads is safe.
 * </ul>
 */
public interface Recording extends AutoCloseable {

  /** Name of the format as read, for example {@code EDF+C}. */
  String format();

  /** Local date and time of the start, if the file has a valid one. */
  Optional<LocalDateTime> findStart();

  /** Signals in the order of the file; annotation signals are left out. */
  List<Channel> channels();

  /** Annotations in order of time. */
  List<Annotation> annotations();

  /** What was noticed while reading. */
  List<Finding> findings();

  /**
   * Copies samples of one channel.
   *
   * @param channel one of {@link #channels()}
   * @param firstSample index of the first sample wanted
   * @param destination receives {@code length} samples from {@code offset} on
   * @throws IllegalArgumentException if the range lies outside the channel
   * @throws IOException if the file cannot be read any more
   */
  void read(Channel channel, long firstSample, double[] destination, int offset, int length)
      throws IOException;

  @Override
  void close() throws IOException;
}
