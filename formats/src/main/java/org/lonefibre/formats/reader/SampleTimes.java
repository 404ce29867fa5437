package org.lonefibre.formats.reader;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.LongFunction;
import org.lonefibre.signal.recording.RecordingFormatException;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.TimeBase;

/**
 * The rate and the gaps of samples whose times are stored as 64-bit numbers in seconds.
 *
 * <ol>
 *   <li>The usual step is the median of the first steps.
 *   <li>A step of one and a half or more is a gap; one of a half or less is refused, as is a sample
 *       more than a fifth of a step from where an even course puts it.
 *   <li>The rate is the roundest (whole, then halves to eighths, then hundredths of a hertz) that
 *       keeps the ends of the longest stretch within a millionth of a step, else within a
 *       hundredth; else the one that those ends give, to a billionth of a hertz.
 * </ol>
 *
 * @param timeBase the rate
 * @param startS the first time
 * @param segments the stretches, from 0 s on
 */
public record SampleTimes(TimeBase timeBase, double startS, List<Segment> segments) {

  private static final int LOOK = 4096;
  private static final int BLOCK = 1 << 16;
  private static final double GAP_STEPS = 1.5;
  private static final double UNEVEN_STEPS = 0.2;

  /** Times of full precision first, then coarser ones; engineering choice. */
  private static final double[] SAME_STEPS = {1e-6, 0.01};

  /** Parts of a hertz that rates are usually written in; engineering choice. */
  private static final long[] PARTS = {1, 2, 4, 8, 100};

  /** Copies the list. */
  public SampleTimes {
    segments = List.copyOf(segments);
  }

  /**
   * Finds rate and gaps.
   *
   * @param place names a sample in messages
   * @throws RecordingFormatException if times are uneven or run back
   */
  public static SampleTimes of(String file, SampleSource times, LongFunction<String> place)
      throws IOException {
    long count = times.count();
    if (count < 2) {
      throw fault(file, place.apply(0), "two times or more", Long.toString(count));
    }
    double[] look = new double[(int) Math.min(LOOK, count)];
    times.read(0, look, 0, look.length);
    double[] steps = new double[look.length - 1];
    for (int k = 0; k < steps.length; k++) {
      steps[k] = look[k + 1] - look[k];
    }
    Arrays.sort(steps);
    double step = steps[steps.length / 2];
    if (!(step > 0) || !Double.isFinite(step)) {
      throw fault(file, place.apply(0), "times that rise", step + " s from one to the next");
    }
    List<long[]> stretches = new ArrayList<>();
    List<Double> starts = new ArrayList<>();
    split(file, times, place, step, stretches, starts);
    TimeBase rate = rate(times, stretches, starts, step);
    List<Segment> segments = new ArrayList<>();
    for (int s = 0; s < stretches.size(); s++) {
      long[] stretch = stretches.get(s);
      segments.add(new Segment(stretch[0], stretch[1], starts.get(s) - starts.get(0)));
    }
    SampleTimes found = new SampleTimes(rate, starts.get(0), segments);
    found.requireEven(file, times, place);
    return found;
  }

  private static void split(
      String file,
      SampleSource times,
      LongFunction<String> place,
      double step,
      List<long[]> stretches,
      List<Double> starts)
      throws IOException {
    double[] block = new double[BLOCK];
    double before = Double.NaN;
    for (long at = 0; at < times.count(); at += BLOCK) {
      int length = (int) Math.min(BLOCK, times.count() - at);
      times.read(at, block, 0, length);
      for (int k = 0; k < length; k++) {
        double own = block[k] - before;
        if (!Double.isFinite(block[k]) || own <= 0.5 * step) {
          throw fault(file, place.apply(at + k), "a time after " + before + " s", block[k] + " s");
        }
        if (!(own < GAP_STEPS * step)) {
          stretches.add(new long[] {at + k, 0});
          starts.add(block[k]);
        }
        stretches.get(stretches.size() - 1)[1]++;
        before = block[k];
      }
    }
  }

  private static TimeBase rate(
      SampleSource times, List<long[]> stretches, List<Double> starts, double step)
      throws IOException {
    int longest = 0;
    for (int s = 0; s < stretches.size(); s++) {
      longest = stretches.get(s)[1] > stretches.get(longest)[1] ? s : longest;
    }
    long[] stretch = stretches.get(longest);
    double[] last = new double[1];
    times.read(stretch[0] + stretch[1] - 1, last, 0, 1);
    double spanS = last[0] - starts.get(longest);
    long intervals = stretch[1] - 1;
    double rateHz = intervals < 1 ? 1 / step : intervals / spanS;
    for (double same : SAME_STEPS) {
      for (long part : PARTS) {
        double whole = Math.rint(rateHz * part);
        if (whole >= 1 && Math.abs(whole / part * spanS - intervals) <= same) {
          return new TimeBase((long) whole, part);
        }
      }
    }
    return TimeBase.ofHz(rateHz);
  }

  private void requireEven(String file, SampleSource times, LongFunction<String> place)
      throws IOException {
    double[] block = new double[BLOCK];
    double origin = Double.NaN;
    for (Segment segment : segments) {
      for (long at = segment.firstSample(); at < segment.endSample(); at += BLOCK) {
        int length = (int) Math.min(BLOCK, segment.endSample() - at);
        times.read(at, block, 0, length);
        origin = at == segment.firstSample() ? block[0] : origin;
        for (int k = 0; k < length; k++) {
          double due = origin + timeBase.timeS((double) (at - segment.firstSample() + k));
          if (Math.abs(block[k] - due) > UNEVEN_STEPS * timeBase.timeS(1)) {
            throw fault(file, place.apply(at + k), "even times, " + due + " s", block[k] + " s");
          }
        }
      }
    }
  }

  private static RecordingFormatException fault(
      String file, String place, String expected, String found) {
    return new RecordingFormatException(file, place, expected, found, "export the recording again");
  }
}
