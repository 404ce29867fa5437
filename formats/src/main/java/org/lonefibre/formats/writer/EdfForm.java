package org.lonefibre.formats.writer;

/** How wide the samples of a written file are. */
public enum EdfForm {
  /** EDF+C, 16 bits. */
  EDF_PLUS(2, "EDF"),
  /** BDF+C, 24 bits, for converters of more than 16 bits. */
  BDF_PLUS(3, "BDF");

  final int sampleBytes;
  final String kind;
  final int lowest;
  final int highest;

  EdfForm(int sampleBytes, String kind) {
    this.sampleBytes = sampleBytes;
    this.kind = kind;
    this.lowest = -(1 << (8 * sampleBytes - 1));
    this.highest = (1 << (8 * sampleBytes - 1)) - 1;
  }

  /** Number of steps between the lowest and the highest number. */
  int steps() {
    return highest - lowest;
  }
}
