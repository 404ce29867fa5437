package org.lonefibre.formats.reader;

import java.io.IOException;

/** The numbers of one channel as its file stores them. Thread rule: safe. */
public interface SampleSource {

  /** What of a channel may be absent. */
  enum Missing {
    /** Numbers that cannot be anything but finite. */
    NEVER,
    /** Not-a-number and infinity stand for samples that are missing. */
    NOT_FINITE
  }

  /** How many numbers there are. */
  long count();

  /** Whether some may be missing. */
  Missing missing();

  /** Copies numbers; the range is inside the channel. */
  void read(long first, double[] destination, int offset, int length) throws IOException;
}
