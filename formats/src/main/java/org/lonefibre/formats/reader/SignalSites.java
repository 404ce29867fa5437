package org.lonefibre.formats.reader;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.lonefibre.formats.reader.SiteCutter.SiteStretch;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.Segment;

/**
 * Cuts a recording into sites by its signal: for those who record one long file while they move the
 * needle, and on request only.
 *
 * <ol>
 *   <li>The signal is seen in windows of 10 ms: the largest step from sample to sample, and the
 *       mean. The rest level is the 10th percentile of the largest steps, the usual movement of the
 *       baseline the median change of the mean over 100 ms.
 *   <li>A pause is 2 s or more in which no window exceeds two and a half rest levels; a gap of the
 *       file of that length counts as one.
 *   <li>The needle moves where the baseline changes by twenty times its usual movement and by more
 *       than ten rest levels, twice or more within half a second.
 *   <li>A site lies between pauses and movements; shorter ones than 2 s are left out. They are
 *       named 1, 2, 3 in order of time.
 * </ol>
 *
 * <p>All limits are engineering choices. Thread rule: safe, keeps nothing.
 */
public final class SignalSites {

  private static final double WINDOW_S = 0.01;
  private static final double PAUSE_S = 2;
  private static final double SHORTEST_S = 2;
  private static final double ACTIVE = 2.5;
  private static final int BASELINE_WINDOWS = 10;
  private static final double MOVED = 20;
  private static final double MOVED_REST = 10;
  private static final int MOVEMENT_WINDOWS = 50;

  private SignalSites() {}

  private record Window(double startS, double largestStep, double mean) {}

  /** The sites of a channel; one if nothing divides it. */
  public static List<SiteStretch> list(Recording recording, Channel channel) throws IOException {
    List<Window> windows = windows(recording, channel);
    double[] steps = windows.stream().mapToDouble(Window::largestStep).sorted().toArray();
    double rest = steps.length == 0 ? 0 : steps[steps.length / 10];
    boolean[] moved = moved(windows, rest);
    List<double[]> stretches = new ArrayList<>();
    double firstS = Double.NaN;
    double lastS = Double.NaN;
    for (int w = 0; w < windows.size(); w++) {
      Window window = windows.get(w);
      boolean active = window.largestStep() > ACTIVE * rest;
      boolean paused = window.startS() - lastS > PAUSE_S;
      if (!Double.isNaN(firstS) && (moved[w] || active && paused)) {
        stretches.add(new double[] {firstS, lastS + WINDOW_S});
        firstS = Double.NaN;
        lastS = Double.NaN;
      }
      if (active && !moved[w]) {
        firstS = Double.isNaN(firstS) ? window.startS() : firstS;
        lastS = window.startS();
      }
    }
    if (!Double.isNaN(firstS)) {
      stretches.add(new double[] {firstS, lastS + WINDOW_S});
    }
    List<SiteStretch> sites = new ArrayList<>();
    for (double[] stretch : stretches) {
      if (stretch[1] - stretch[0] >= SHORTEST_S) {
        sites.add(new SiteStretch(Integer.toString(sites.size() + 1), stretch[0], stretch[1]));
      }
    }
    return sites;
  }

  private static List<Window> windows(Recording recording, Channel channel) throws IOException {
    int length = (int) Math.max(2, Math.rint(channel.timeBase().positionSamples(WINDOW_S)));
    double[] block = new double[length];
    List<Window> windows = new ArrayList<>();
    for (Segment segment : channel.segments()) {
      for (long at = segment.firstSample(); at + length <= segment.endSample(); at += length) {
        recording.read(channel, at, block, 0, length);
        double largest = 0;
        double sum = block[0];
        for (int k = 1; k < length; k++) {
          largest = Math.max(largest, Math.abs(block[k] - block[k - 1]));
          sum += block[k];
        }
        double startS =
            segment.startS() + channel.timeBase().timeS((double) (at - segment.firstSample()));
        windows.add(new Window(startS, largest, sum / length));
      }
    }
    return windows;
  }

  /** Windows in which the needle moves. */
  private static boolean[] moved(List<Window> windows, double rest) {
    boolean[] moved = new boolean[windows.size()];
    int changes = Math.max(0, windows.size() - BASELINE_WINDOWS);
    double[] change = new double[changes];
    for (int w = 0; w < changes; w++) {
      change[w] = Math.abs(windows.get(w + BASELINE_WINDOWS).mean() - windows.get(w).mean());
    }
    double[] sorted = change.clone();
    Arrays.sort(sorted);
    double usual = changes == 0 ? 0 : sorted[changes / 2];
    double least = Math.max(MOVED * usual, MOVED_REST * rest);
    for (int w = 0; w < changes; w++) {
      if (change[w] > least) {
        int again = w + BASELINE_WINDOWS;
        while (again < Math.min(changes, w + MOVEMENT_WINDOWS) && !(change[again] > least)) {
          again++;
        }
        if (again < Math.min(changes, w + MOVEMENT_WINDOWS)) {
          Arrays.fill(moved, w, Math.min(moved.length, again + BASELINE_WINDOWS), true);
        }
      }
    }
    return moved;
  }
}
