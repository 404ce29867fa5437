package org.lonefibre.analysis.potential;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

/**
 * The motor units of a site as they were followed, and as a person wants them otherwise: a
 * potential more, two units as one, one as two. What is changed is placed anew in every discharge.
 *
 * <ul>
 *   <li>Units are numbered as in {@link #units}, from 0.
 *   <li>What the recording does not bear out is refused: IllegalArgumentException, in words.
 *   <li>Thread rule: one thread at a time.
 * </ul>
 */
public final class FollowedUnits {

  private static final double POINTED_US = 400;
  private static final int TURNS = 8;

  private final TrackReader reader;
  private final UnitWorkers workers;
  private final TrackedSite site;
  private final double samplesPerUs;
  private List<UnitTrack> tracks;
  private List<TrackedUnit> read;

  FollowedUnits(
      TrackReader reader,
      UnitWorkers workers,
      TrackedSite site,
      double samplesPerUs,
      List<UnitTrack> tracks) {
    this.reader = reader;
    this.workers = workers;
    this.site = site;
    this.samplesPerUs = samplesPerUs;
    this.tracks = tracks;
    this.read = reader.read(tracks);
  }

  /** The units as they are now. */
  public List<TrackedUnit> units() {
    return read;
  }

  /**
   * Adds a potential to a unit where the mean of its discharges is steepest near a place.
   *
   * @param lagSamples place in the discharge, as {@link TrackedPotential#lagSamples}
   */
  public void add(int unit, double lagSamples) {
    UnitTrack before = tracks.get(unit);
    site.note(tracks);
    double place =
        workers.census().steepestNear(before, unit, lagSamples, POINTED_US * samplesPerUs);
    UnitTrack after =
        before.with(IntStream.range(0, before.potentials).toArray(), new double[] {place});
    List<UnitTrack> changed = new ArrayList<>(tracks);
    changed.set(unit, after);
    settle(changed, unit);
    List<TrackedUnit> now = reader.read(changed);
    if (now.get(unit).potentials().size() <= read.get(unit).potentials().size()) {
      throw new IllegalArgumentException(
          "nothing stands out of the noise at this place in the mean of the discharges");
    }
    tracks = changed;
    read = now;
  }

  /** Makes two units one, which keeps the number of the first. */
  public void merge(int unit, int other) {
    if (unit == other) {
      throw new IllegalArgumentException("a unit cannot be merged with itself");
    }
    UnitTrack merged = new UnitJoin(samplesPerUs).join(tracks.get(unit), tracks.get(other));
    List<UnitTrack> changed = new ArrayList<>(tracks);
    changed.set(unit, merged);
    changed.remove(other);
    settle(changed, unit > other ? unit - 1 : unit);
    take(changed);
  }

  /** Parts a unit into the two groups its sizes and intervals fall into best. */
  public void part(int unit) {
    take(parted(unit, new TrackSplitter(samplesPerUs).halve(tracks.get(unit))));
  }

  /**
   * Parts a unit as a person says.
   *
   * @param discharges those that go to the second unit, from 0
   */
  public void part(int unit, int[] discharges) {
    List<UnitTrack> parts = new TrackSplitter(samplesPerUs).part(tracks.get(unit), discharges);
    take(parted(unit, parts));
  }

  private List<UnitTrack> parted(int unit, List<UnitTrack> parts) {
    List<UnitTrack> changed = new ArrayList<>(tracks);
    changed.set(unit, parts.get(0));
    changed.add(parts.get(1));
    settle(changed, unit);
    settle(changed, changed.size() - 1);
    return changed;
  }

  private void settle(List<UnitTrack> changed, int unit) {
    site.note(changed);
    workers.settle(changed.get(unit), unit);
    site.note(changed);
    workers.polish(changed.get(unit), unit, TURNS);
    site.note(changed);
  }

  private void take(List<UnitTrack> changed) {
    tracks = changed;
    read = reader.read(changed);
  }
}
