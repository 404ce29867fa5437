package org.lonefibre.formats.fuzz;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.lonefibre.formats.edf.EdfReader;
import org.lonefibre.formats.hdf.HdfReader;
import org.lonefibre.formats.mat.MatReader;
import org.lonefibre.formats.raw.RawReader;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.formats.reader.RecordingReader;
import org.lonefibre.formats.text.TextReader;
import org.lonefibre.formats.wav.WavReader;
import org.lonefibre.formats.wfdb.WfdbReader;

/**
 * A reader that is given broken files. Another reader joins by a constant here and seeds in {@link
 * FuzzSeeds}.
 */
enum FuzzTarget {
  EDF(new EdfReader()),
  TEXT(new TextReader()),
  WFDB(new WfdbReader()) {
    @Override
    Path lay(Path folder, byte[] input) throws IOException {
      return WfdbBundle.lay(folder, input);
    }
  },
  WAV(new WavReader()),
  MAT(new MatReader()) {
    @Override
    ReadOptions options(byte[] input) {
      return rated(input);
    }
  },
  HDF(new HdfReader()) {
    @Override
    ReadOptions options(byte[] input) {
      return input.length % 4 == 3 ? ReadOptions.defaults() : rated(input);
    }
  },
  /** The first bytes of an input say its layout. */
  RAW(new RawReader()) {
    @Override
    ReadOptions options(byte[] input) {
      return rated(input).withRaw(RawBundle.layout(input));
    }

    @Override
    Path lay(Path folder, byte[] input) throws IOException {
      return RawBundle.lay(folder, input);
    }
  },
  SWEEPS(new TextReader()) {
    @Override
    ReadOptions options(byte[] input) {
      return rated(input).withRows(ReadOptions.Rows.SWEEPS);
    }
  },
  INTERVALS(new IntervalListReader());

  private static final double[] RATES_HZ = {48_000, 48_828.125, 48_000};

  final RecordingReader reader;

  FuzzTarget(RecordingReader reader) {
    this.reader = reader;
  }

  /** What is told with half of the inputs, so that both ways are gone. */
  ReadOptions options(byte[] input) {
    boolean isTold = input.length % 2 == 1;
    return isTold
        ? ReadOptions.defaults().withSamplingRateHz(48_000).withGainUvPerUnit(0.5)
        : ReadOptions.defaults();
  }

  private static ReadOptions rated(byte[] input) {
    ReadOptions rated =
        ReadOptions.defaults().withSamplingRateHz(RATES_HZ[input.length % RATES_HZ.length]);
    return input.length % 2 == 1 ? rated.withGainUvPerUnit(-0.5) : rated;
  }

  /** Writes an input as the files it stands for; gives the one to open. */
  Path lay(Path folder, byte[] input) throws IOException {
    return Files.write(folder.resolve("input"), input);
  }

  List<byte[]> seeds() throws IOException {
    return FuzzSeeds.list(this);
  }
}
