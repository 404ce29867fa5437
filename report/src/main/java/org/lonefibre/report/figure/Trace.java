package org.lonefibre.report.figure;

import java.util.ArrayList;
import java.util.List;

/**
 * Turns samples into path data in tenths of a pixel.
 *
 * <ol>
 *   <li>Where more than two samples fall on a pixel column, only the least and the greatest stay,
 *       in their order: no spike is hidden.
 *   <li>A point is left out if the straight line that passes it misses it by at most two tenths of
 *       a pixel.
 * </ol>
 */
final class Trace {

  private static final int TOLERANCE = 2;

  private final List<int[]> points = new ArrayList<>();
  private final int perColumn;

  /** A trace that decimates as soon as a column holds more than two samples. */
  Trace() {
    this.perColumn = 2;
  }

  /** Adds a sample, from left to right. */
  Trace add(double x, double y) {
    points.add(new int[] {(int) Math.round(x * 10), (int) Math.round(y * 10)});
    return this;
  }

  boolean isEmpty() {
    return points.isEmpty();
  }

  /** The path, moves relative and whole. */
  String data() {
    List<int[]> kept = straightened(extremes(points));
    StringBuilder data = new StringBuilder();
    for (int i = 0; i < kept.size(); i++) {
      int[] point = kept.get(i);
      if (i == 0) {
        data.append('M').append(point[0]).append(' ').append(point[1]);
        if (kept.size() > 1) {
          data.append('l');
        }
      } else {
        int dx = point[0] - kept.get(i - 1)[0];
        int dy = point[1] - kept.get(i - 1)[1];
        data.append(i > 1 && dx >= 0 ? " " : "").append(dx).append(dy < 0 ? "" : " ").append(dy);
      }
    }
    return data.toString();
  }

  private List<int[]> extremes(List<int[]> all) {
    List<int[]> kept = new ArrayList<>();
    int start = 0;
    while (start < all.size()) {
      int column = Math.floorDiv(all.get(start)[0], 10);
      int end = start;
      int least = start;
      int greatest = start;
      while (end < all.size() && Math.floorDiv(all.get(end)[0], 10) == column) {
        least = all.get(end)[1] < all.get(least)[1] ? end : least;
        greatest = all.get(end)[1] > all.get(greatest)[1] ? end : greatest;
        end++;
      }
      if (end - start <= perColumn) {
        kept.addAll(all.subList(start, end));
      } else {
        kept.add(all.get(Math.min(least, greatest)));
        if (least != greatest) {
          kept.add(all.get(Math.max(least, greatest)));
        }
      }
      start = end;
    }
    return kept;
  }

  /** Each kept point is the last that a line from the one before could reach within tolerance. */
  private static List<int[]> straightened(List<int[]> all) {
    if (all.size() < 3) {
      return all;
    }
    List<int[]> kept = new ArrayList<>();
    kept.add(all.get(0));
    double lowest = Double.NEGATIVE_INFINITY;
    double highest = Double.POSITIVE_INFINITY;
    int[] from = all.get(0);
    int[] last = from;
    for (int[] point : all.subList(1, all.size())) {
      double dx = point[0] - from[0];
      double slope = dx == 0 ? Double.NaN : (point[1] - from[1]) / dx;
      if (last != from && !(slope >= lowest && slope <= highest)) {
        kept.add(last);
        from = last;
        lowest = Double.NEGATIVE_INFINITY;
        highest = Double.POSITIVE_INFINITY;
        dx = point[0] - from[0];
      }
      if (dx > 0) {
        lowest = Math.max(lowest, (point[1] - TOLERANCE - from[1]) / dx);
        highest = Math.min(highest, (point[1] + TOLERANCE - from[1]) / dx);
      } else {
        lowest = Double.POSITIVE_INFINITY; // straight up: the next point starts anew
      }
      last = point;
    }
    kept.add(last);
    return kept;
  }
}
