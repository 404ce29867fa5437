package org.lonefibre.validation;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.validation.cases.CaseLibrary;
import org.lonefibre.validation.cases.LibraryCase;
import org.lonefibre.validation.score.PitfallScore;

/** The case library through the chain. */
public final class CaseValidation {

  /**
   * A case and what was found.
   *
   * @param isRaised whether the finding in question was raised
   */
  public record Row(LibraryCase of, boolean isRaised) {

    /** Whether that is what was expected. */
    public boolean isRight() {
      return isRaised == of.raised();
    }
  }

  private CaseValidation() {}

  /**
   * Measures every case of the library.
   *
   * @param done called after each
   */
  public static List<Row> run(Runnable done) {
    List<Row> rows = new ArrayList<>();
    for (LibraryCase one : CaseLibrary.listAll()) {
      rows.add(measure(one));
      done.run();
    }
    return List.copyOf(rows);
  }

  /** Measures one case. */
  public static Row measure(LibraryCase one) {
    return new Row(
        one, PitfallScore.isRaised(one.finding(), PitfallValidation.analyse(one.simulate())));
  }
}
