package org.lonefibre.formats.reader;

import java.io.IOException;
import java.nio.channels.ClosedChannelException;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Recording;

/**
 * A recording whose reader need not check what is asked for.
 *
 * <ul>
 *   <li>A channel is told by its number; what the caller says of its length is not believed.
 *   <li>Closing twice is harmless; reading after that is refused.
 *   <li>Thread rule: reading from several threads is safe if {@link #copy} is.
 * </ul>
 */
public abstract class CheckedRecording implements Recording {

  private volatile boolean closed;

  /** Name of the file, for messages. */
  protected abstract String file();

  /** Copies samples of one of the channels; the range is inside it and fits the array. */
  protected abstract void copy(
      Channel own, long firstSample, double[] destination, int offset, int length)
      throws IOException;

  /** Whether it was closed. */
  protected final boolean isClosed() {
    return closed;
  }

  /** Lets go of the file; called again it does nothing. */
  protected abstract void release() throws IOException;

  @Override
  public final void read(
      Channel channel, long firstSample, double[] destination, int offset, int length)
      throws IOException {
    Channel own =
        channels().stream()
            .filter(one -> one.number() == channel.number())
            .findFirst()
            .orElseThrow(
                () ->
                    new IllegalArgumentException(
                        "no channel " + channel.number() + " in " + file()));
    SampleRange.check(own, firstSample, offset, length, destination.length);
    if (closed) {
      throw new ClosedChannelException();
    }
    copy(own, firstSample, destination, offset, length);
  }

  @Override
  public final void close() throws IOException {
    closed = true;
    release();
  }
}
