package org.lonefibre.formats.reader;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import org.lonefibre.signal.recording.Channel;

/**
 * How a file stores what it holds; a recording that knows it can be copied without a change.
 *
 * <ul>
 *   <li>Thread rule: safe.
 * </ul>
 */
public interface StoredForm {

  /**
   * The range of a channel as its file states it.
   *
   * @param physicalLow value of the lowest number, as written, in the channel's unit
   * @param physicalHigh value of the highest number, as written
   * @param digitalLow lowest number
   * @param digitalHigh highest number
   */
  record DigitalRange(String physicalLow, String physicalHigh, int digitalLow, int digitalHigh) {}

  /** Bits of a stored sample; 0 if samples are not stored as whole numbers of one width. */
  int storedBits();

  /** The range of a channel; empty if a person told another gain, or the file states none. */
  Optional<DigitalRange> findDigitalRange(Channel channel);

  /** All fields of the header in the order of the file; empty if it has none. */
  List<HeaderField> listHeaderFields() throws IOException;
}
