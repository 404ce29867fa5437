package org.lonefibre.app.needle;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.lonefibre.app.declaration.NeedleFile;
import org.lonefibre.model.electrode.Needle;
import org.lonefibre.model.fibre.FibreGeometry;
import org.lonefibre.model.leadfield.LeadFieldCache;
import org.lonefibre.model.leadfield.LeadFieldException;
import org.lonefibre.model.leadfield.LeadFieldSettings;
import org.lonefibre.model.leadfield.LeadFieldSolver;
import org.lonefibre.model.leadfield.SolvedNeedle;
import org.lonefibre.model.motorunit.SampleMuscle;
import org.lonefibre.model.motorunit.SpikeLadder;
import org.lonefibre.signal.random.RandomStream;
import org.lonefibre.workbench.declaration.NeedleModel;

/** The needles of the {@code needle} command, as the workbench sees them. Thread rule: safe. */
public final class KnownNeedles implements NeedleModel {

  private static final double SPIKE_SHARE = 0.1;
  private static final List<Known> KNOWN =
      List.of(
          new Known("single-fibre", "single-fibre"),
          new Known("concentric-small", "concentric, small"),
          new Known("concentric-standard", "concentric, standard"),
          new Known("monopolar", "monopolar"));
  private static final List<Double> RUNGS_MM =
      List.of(0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.7, 1.0, 1.5, 2.0);

  private static final int PLACES = 5;
  private static final long PLACES_SEED = 3;

  /** An engineering choice: as near as a needle is commonly moved for a sharp potential. */
  private static final double BEFORE_MM = 0.12;

  private final Path cache;

  /**
   * @param cache folder that keeps solved needles
   */
  public KnownNeedles(Path cache) {
    this.cache = cache;
  }

  @Override
  public List<Known> listNeedles() {
    return KNOWN;
  }

  @Override
  public byte[] describe(String key) throws IOException {
    NeedleQuestion question = question(key);
    return solved(
        key,
        () ->
            NeedlePage.json(
                NeedleAnswer.to(question, new LeadFieldSolver(new LeadFieldCache(cache)))
                    .document()));
  }

  @Override
  public List<Section> sections(String key) throws IOException {
    NeedleQuestion question = question(key);
    return solved(key, () -> NeedleSections.of(needle(question)));
  }

  @Override
  public List<Place> places(String key) throws IOException {
    NeedleQuestion question = question(key);
    return solved(
        key,
        () -> {
          SampleMuscle muscle = NeedleInMuscle.muscle(question, needle(question));
          List<Place> places = new ArrayList<>();
          for (int place = 0; place < PLACES; place++) {
            SpikeLadder ladder =
                muscle.ladder(
                    BEFORE_MM, question.highPassHz(), RandomStream.of(PLACES_SEED).child(place));
            places.add(
                new Place(
                    ladder.amplitudeUv(),
                    question.highPassHz(),
                    ladder.rungs().stream()
                        .map(r -> new Rung(r.distanceMm(), r.amplitudeUv(), r.shareRatio()))
                        .toList(),
                    ladder.restRatio()));
          }
          return places;
        });
  }

  private SolvedNeedle needle(NeedleQuestion question) {
    return new LeadFieldSolver(new LeadFieldCache(cache))
        .solve(question.needle(), question.ideal());
  }

  private static NeedleQuestion question(String key) throws IOException {
    Needle needle = NeedleFile.find(key);
    return new NeedleQuestion(
        needle,
        LeadFieldSettings.defaults(),
        0,
        null,
        RUNGS_MM,
        NeedleQuestion.usualHighPassHz(needle),
        FibreGeometry.defaults(),
        SPIKE_SHARE,
        List.of(),
        NeedleQuestion.USUAL_REACH_UV);
  }

  private interface Work<T> {
    T done() throws IOException;
  }

  private static <T> T solved(String key, Work<T> work) throws IOException {
    try {
      return work.done();
    } catch (LeadFieldException e) {
      throw new IllegalArgumentException(
          "the field of needle " + key + " cannot be solved: " + e.getMessage(), e);
    }
  }
}
