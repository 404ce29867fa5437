package org.lonefibre.formats.hdf;

import io.jhdf.HdfFile;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.formats.reader.RecordingReader;
import org.lonefibre.formats.reader.SampleTimes;
import org.lonefibre.formats.reader.SourceRecording;
import org.lonefibre.formats.reader.SourceRecording.Input;
import org.lonefibre.formats.reader.Variables;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.RecordingFormatException;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.TimeBase;

/**
 * Reads HDF5: data sets of numbers, MATLAB 7.3, and time series of NWB with their rate or times,
 * conversion and unit. Read in blocks, whatever the size.
 *
 * <ul>
 *   <li>Of a data set with two sides the longer one is time. Equal sides are refused.
 *   <li>A time series starts so long after the reference time of its file, or the start of the
 *       session; the date and time are local ones, as written.
 *   <li>Only a time series says its rate; of any other data set it is told.
 *   <li>Thread rule: safe, keeps nothing between calls.
 * </ul>
 */
public final class HdfReader implements RecordingReader {

  private static final byte[] SIGNATURE = {(byte) 0x89, 'H', 'D', 'F', '\r', '\n', 0x1a, '\n'};

  /** A hundred years; what is later is no time since a session began. Engineering choice. */
  private static final double MOST_AFTER_S = 3.2e9;

  @Override
  public boolean recognises(byte[] head) {
    // The signature stands at 0, 512, 1024, 2048, ... (HDF5 file format, superblock).
    for (int at = 0; at + SIGNATURE.length <= head.length; at = at == 0 ? 512 : 2 * at) {
      if (Arrays.equals(head, at, at + SIGNATURE.length, SIGNATURE, 0, SIGNATURE.length)) {
        return true;
      }
    }
    return false;
  }

  @Override
  public Recording open(Path file, ReadOptions options) throws IOException {
    String name = String.valueOf(file.getFileName());
    HdfFile opened = null;
    try {
      opened = open(name, file);
      return recording(name, opened, options);
    } catch (IOException
        | RuntimeException
        | InternalError
        | StackOverflowError
        | OutOfMemoryError e) {
      close(opened);
      if (e instanceof RecordingFormatException fault) {
        throw fault;
      }
      RecordingFormatException fault =
          new RecordingFormatException(
              name,
              "HDF5 file",
              "data sets that can be read",
              HdfBlocks.reason(e),
              "save it again, or export it as EDF+");
      fault.initCause(e);
      throw fault;
    }
  }

  /**
   * A mapped file takes no memory for what a broken one claims to hold; larger ones cannot be
   * mapped as a whole.
   */
  private static HdfFile open(String name, Path file) throws IOException {
    try (FileChannel channel = FileChannel.open(file, StandardOpenOption.READ)) {
      long size = channel.size();
      if (size > Integer.MAX_VALUE) {
        return new HdfFile(file);
      }
      ByteBuffer mapped = channel.map(FileChannel.MapMode.READ_ONLY, 0, size);
      HdfFile opened = HdfFile.fromByteBuffer(mapped.duplicate());
      ChunkClaims.check(name, mapped, opened.getHdfBackingStorage().getSizeOfLengths());
      return opened;
    }
  }

  private static void close(@Nullable HdfFile opened) {
    try {
      if (opened != null) {
        opened.close();
      }
    } catch (RuntimeException e) {
      // The reason why it could not be read is the one to be told.
      return;
    }
  }

  private static Recording recording(String name, HdfFile file, ReadOptions options)
      throws IOException {
    HdfTree tree = HdfTree.of(name, file);
    String variable = Variables.choose(name, tree.candidates(), options.variable(), tree.numbers());
    HdfSeries series = tree.series(variable);
    HdfBlocks blocks = new HdfBlocks(name, series.data(), file.size());
    TimeBase timeBase;
    List<Segment> timing;
    double startS = series.startS();
    Double declaredHz = series.rateHz();
    if (declaredHz != null) {
      requireSame(name, declaredHz, options.samplingRateHz());
      timeBase = TimeBase.ofHz(declaredHz);
      timing = List.of(new Segment(0, blocks.count(), 0));
    } else if (series.timestamps() != null) {
      HdfBlocks times = new HdfBlocks(name, series.timestamps(), file.size());
      if (times.count() != blocks.count()) {
        throw new RecordingFormatException(
            name,
            variable + ", timestamps",
            blocks.count() + " times, one a sample",
            Long.toString(times.count()),
            "check the file");
      }
      SampleTimes found = SampleTimes.of(name, times.source(0), k -> variable + ", timestamp " + k);
      requireSame(name, found.timeBase().samplingRateHz(), options.samplingRateHz());
      timeBase = found.timeBase();
      startS = found.startS();
      timing = found.segments();
    } else {
      timeBase = TimeBase.ofHz(Variables.rateHz(name, options.samplingRateHz(), tree.numbers()));
      timing = List.of(new Segment(0, blocks.count(), 0));
    }
    List<Input> inputs = new ArrayList<>();
    for (int c = 0; c < blocks.channels(); c++) {
      String label = blocks.channels() == 1 ? variable : variable + " " + (c + 1);
      inputs.add(
          new Input(
              label,
              series.unit(),
              blocks.source(c),
              series.conversion(),
              series.offset(),
              series.isSeries() ? blocks.findRange() : null));
    }
    return new SourceRecording(
        name,
        tree.format(),
        timeBase,
        timing,
        inputs,
        List.of(),
        options,
        start(tree, startS),
        file::close);
  }

  private static @Nullable LocalDateTime start(HdfTree tree, double afterS) {
    boolean isNear = Math.abs(afterS) < MOST_AFTER_S;
    return tree.findStart()
        .filter(reference -> isNear)
        .map(reference -> reference.plusNanos(Math.round(1e9 * afterS)))
        .orElse(null);
  }

  private static void requireSame(String name, double foundHz, @Nullable Double toldHz)
      throws RecordingFormatException {
    if (toldHz != null && Math.abs(toldHz - foundHz) > 1e-6 * foundHz) {
      throw new RecordingFormatException(
          name,
          "sampling rate",
          foundHz + " Hz, as the file says",
          toldHz + " Hz told",
          "leave --sampling-rate-hz out");
    }
  }
}
