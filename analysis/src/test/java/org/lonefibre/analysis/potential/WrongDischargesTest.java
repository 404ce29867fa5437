package org.lonefibre.analysis.potential;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.lonefibre.analysis.potential.DrawnRecording.Form;

/** Discharges that were laid wrong, or given to the wrong unit: each worker sets its own right. */
class WrongDischargesTest {

  private static final double NOISE_UV = 12;
  private static final double SAME = 25;

  /** Taken up at its second potential, which looks like the first. */
  @Test
  void aDischargeThatSlippedIsMovedBack() throws IOException {
    Pair pair = new Pair();
    double right = pair.unit.reference[20];
    slip(pair.unit, 20);

    pair.correct(20);

    assertThat(pair.unit.reference[20]).isCloseTo(right, within(SAME));
    assertThat(pair.unit.isPresent(20, 1)).isTrue();
  }

  /** Where the second potential is blocked, the first is no slip of it. */
  @Test
  void aDischargeWithABlockStaysWhereItIs() throws IOException {
    Pair pair = new Pair(20);
    double right = pair.unit.reference[20];
    assertThat(pair.unit.presence[20][1]).isNotEqualTo(Presence.PRESENT);

    pair.correct(20);

    assertThat(pair.unit.reference[20]).isEqualTo(right);
  }

  @Test
  void dischargesTakenForEachOtherChangeUnits() throws IOException {
    double[][] fired = firedSoonAfterEachOther();
    KnownUnits known = new KnownUnits(twoAlikeUnits(fired[0], fired[1]));
    List<UnitTrack> right = known.noted(alike(fired[0], 800), alike(fired[1], 1400));
    List<UnitTrack> wrong = exchanged(right, new int[] {10, 11, 30});
    known.site.note(wrong);

    boolean changed = new DischargeSwap(known.stretches()).swap(wrong, 0, 1);

    assertThat(changed).isTrue();
    for (int u = 0; u < 2; u++) {
      assertSame(wrong.get(u).reference, right.get(u).reference);
    }
  }

  @Test
  void unitsThatHoldTheirOwnKeepThem() throws IOException {
    double[][] fired = firedSoonAfterEachOther();
    KnownUnits known = new KnownUnits(twoAlikeUnits(fired[0], fired[1]));
    List<UnitTrack> right = known.noted(alike(fired[0], 800), alike(fired[1], 1400));

    assertThat(new DischargeSwap(known.stretches()).swap(right, 0, 1)).isFalse();
  }

  /** The first is silent for a while, and the second's discharges were taken for its own. */
  @Test
  void whatASilentUnitTookIsGivenBack() throws IOException {
    Loan loan = new Loan();
    UnitTrack owner = loan.owner.without(IntStream.range(0, 30).toArray());
    loan.known.site.note(List.of(loan.taker, owner));
    UnitTrack taker = loan.known.settled(loan.taker.withMore(loan.lent).copy(), 0);
    List<UnitTrack> units = new ArrayList<>(List.of(taker, owner));
    loan.known.site.note(units);

    assertThat(loan.borrowed().giveBack(units, 0, 1)).isTrue();
    assertSame(units.get(0).reference, loan.taker.reference);
    assertSame(units.get(1).reference, loan.owner.reference);
  }

  @Test
  void whatIsItsOwnAUnitNeverGives() throws IOException {
    Loan loan = new Loan();
    List<UnitTrack> units = new ArrayList<>(List.of(loan.taker, loan.owner));

    assertThat(loan.borrowed().giveBack(units, 0, 1)).isFalse();
    assertThat(loan.borrowed().giveBack(units, 1, 0)).isFalse();
  }

  /** A unit of two potentials alike, 0.9 ms apart. */
  private static final class Pair {

    private final KnownUnits known;
    private final UnitTrack unit;

    private Pair(int... blocked) throws IOException {
      DrawnRecording recording = new DrawnRecording(3, 5, NOISE_UV);
      double[] fired = recording.firing();
      double[] second = fired.clone();
      Arrays.stream(blocked).forEach(d -> second[d] = Double.NaN);
      recording.add(Form.BIPHASIC, 400, fired, 0, 20);
      recording.add(Form.BIPHASIC, 370, second, 900, 20);
      known = new KnownUnits(recording);
      unit = known.unit(fired, 0, 900);
      known.site.note(List.of(unit));
    }

    private void correct(int d) {
      new SlipSearch(known.signal, known.site, known.windows)
          .correct(unit, 0, d, 0, new double[] {1, 1}, new double[] {0.02, 0.02});
    }
  }

  private static void slip(UnitTrack unit, int d) {
    double by = unit.lag[1] - unit.lag[0];
    unit.reference[d] += by;
    unit.arrival[d][0] += by;
    unit.presence[d][1] = Presence.ABSENT;
    unit.scale[d][1] = 0;
  }

  /** The second fires 9 ms after the first, or as long before it. */
  private static double[][] firedSoonAfterEachOther() {
    double[] first = new DrawnRecording(5, 6, NOISE_UV).firing();
    double[] second =
        IntStream.range(0, first.length)
            .mapToDouble(d -> first[d] + (d % 2 == 0 ? 0.009 : 0.012))
            .toArray();
    return new double[][] {first, second};
  }

  private static DrawnRecording twoAlikeUnits(double[] first, double[] second) {
    DrawnRecording recording = new DrawnRecording(6, 6, NOISE_UV);
    recording.add(Form.BIPHASIC, 500, first, 0, 10);
    recording.add(Form.TRIPHASIC, 300, first, 800, 20);
    recording.add(Form.BIPHASIC, 480, second, 0, 10);
    recording.add(Form.TRIPHASIC, 300, second, 1400, 20);
    return recording;
  }

  private static UnitTrack alike(double[] fired, double lagUs) {
    return KnownUnits.placed(fired, 0, lagUs);
  }

  private static List<UnitTrack> exchanged(List<UnitTrack> right, int[] which) {
    List<UnitTrack> wrong = new ArrayList<>();
    for (int u = 0; u < 2; u++) {
      UnitTrack other = right.get(1 - u);
      wrong.add(right.get(u).without(which).withMore(places(other, which)));
    }
    return wrong;
  }

  private static List<UnitTrack.Place> places(UnitTrack unit, int[] which) {
    return Arrays.stream(which)
        .mapToObj(d -> new UnitTrack.Place(unit.reference[d], unit.segment[d]))
        .toList();
  }

  /** Two units alike, the first silent for the thirty discharges with which the second begins. */
  private static final class Loan {

    private final KnownUnits known;
    private final UnitTrack taker;
    private final UnitTrack owner;
    private final List<UnitTrack.Place> lent;

    private Loan() throws IOException {
      DrawnRecording recording = new DrawnRecording(8, 9, NOISE_UV);
      double[] all = recording.firing();
      double[] own = Arrays.copyOfRange(all, 30, all.length);
      double[] others =
          DoubleStream.concat(
                  Arrays.stream(all, 0, 30), Arrays.stream(all, 30, all.length).map(t -> t + 0.03))
              .toArray();
      recording.add(Form.BIPHASIC, 500, own, 0, 10);
      recording.add(Form.TRIPHASIC, 330, own, 900, 15);
      recording.add(Form.BIPHASIC, 470, others, 0, 10);
      recording.add(Form.TRIPHASIC, 300, others, 960, 15);
      known = new KnownUnits(recording);
      List<UnitTrack> units =
          known.noted(KnownUnits.placed(own, 0, 900), KnownUnits.placed(others, 0, 960));
      taker = units.get(0);
      owner = units.get(1);
      lent = places(owner, IntStream.range(0, 30).toArray());
    }

    private BorrowedDischarges borrowed() {
      return new BorrowedDischarges(
          known.site,
          known.workers.fitter(),
          known.stretches(),
          new Unevenness(known.signal.timeBase().lengthSamples(1)));
    }
  }

  private static void assertSame(double[] found, double[] wanted) {
    assertThat(found).containsExactly(wanted, within(SAME));
  }

  private static Offset<Double> within(double samples) {
    return Offset.offset(samples);
  }
}
