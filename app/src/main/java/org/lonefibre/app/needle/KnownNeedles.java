package org.lonefibre.app.needle;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.lonefibre.app.declaration.NeedleFile;
import org.lonefibre.model.electrode.Needle;
import org.lonefibre.model.fibre.FibreGeometry;
import org.lonefibre.model.leadfield.LeadFieldCache;
import org.lonefibre.model.leadfield.LeadFieldException;
import org.lonefibre.model.leadfield.LeadFieldSettings;
import org.lonefibre.model.leadfield.LeadFieldSolver;
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
    Needle needle = NeedleFile.find(key);
    try {
      return NeedlePage.json(
          NeedleAnswer.to(
                  new NeedleQuestion(
                      needle,
                      LeadFieldSettings.defaults(),
                      0,
                      null,
                      RUNGS_MM,
                      NeedleQuestion.usualHighPassHz(needle),
                      FibreGeometry.defaults(),
                      SPIKE_SHARE,
                      List.of(),
                      NeedleQuestion.USUAL_REACH_UV),
                  new LeadFieldSolver(new LeadFieldCache(cache)))
              .document());
    } catch (LeadFieldException e) {
      throw new IllegalArgumentException(
          "the field of needle " + key + " cannot be solved: " + e.getMessage(), e);
    }
  }
}
