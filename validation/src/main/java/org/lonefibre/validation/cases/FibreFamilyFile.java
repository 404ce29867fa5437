package org.lonefibre.validation.cases;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.lonefibre.model.electrode.Needles;
import org.lonefibre.model.fibre.FibreGeometry;
import org.lonefibre.model.fibre.FibrePotential;
import org.lonefibre.model.fibre.FibrePotentialSolver;
import org.lonefibre.model.fibre.IntracellularPotential;
import org.lonefibre.model.leadfield.LeadFieldSettings;
import org.lonefibre.model.leadfield.LeadFieldSolver;
import org.lonefibre.model.leadfield.LeadTable;
import org.lonefibre.model.tissue.LeadField;
import org.lonefibre.model.tissue.Tissue;

/**
 * The family of single fibre potentials that the measuring chain knows, as a file: unfiltered, each
 * value in 1/10,000 of maximum minus minimum, every 10 us, the steepest point in the middle.
 *
 * <ul>
 *   <li>Needles, distances, diameters and the length of the wave inside the fibre are engineering
 *       choices around what muscle holds. The other wave and the averaging surface that studies are
 *       held out with are not in it.
 * </ul>
 */
public final class FibreFamilyFile {

  private static final double STEP_US = 10;
  private static final int HALF = 300;
  private static final double[] DISTANCES_MM = {0.1, 0.2, 0.35};
  private static final double[] DIAMETERS_UM = {35, 55, 80};
  private static final double[] SCALES_PER_MM = {2.8, 4.4};
  private static final double END_PLATE_MM = 25;
  private static final double BEHIND_MM = 0.35;

  private FibreFamilyFile() {}

  /**
   * Writes the file anew.
   *
   * @param arguments its path
   * @throws IOException if it cannot be written
   */
  public static void main(String[] arguments) throws IOException {
    Files.write(Path.of(arguments[0]), lines());
  }

  /** The file, line by line. */
  public static List<String> lines() {
    Tissue tissue = Tissue.defaults();
    List<String> lines = new ArrayList<>();
    lines.add("# single fibre potentials computed by the model of the needle in muscle");
    lines.add("electrode,distanceMm,diameterUm,waveScalePerMm,values");
    leads(tissue)
        .forEach(
            (name, lead) -> {
              for (double distanceMm : DISTANCES_MM) {
                for (double diameterUm : DIAMETERS_UM) {
                  for (double scalePerMm : SCALES_PER_MM) {
                    FibrePotential potential =
                        new FibrePotentialSolver(
                                tissue, lead, IntracellularPotential.cubic(scalePerMm))
                            .solve(
                                FibreGeometry.defaults()
                                    .withDistanceMm(distanceMm)
                                    .withDiameterUm(diameterUm)
                                    .withEndPlateDistanceMm(END_PLATE_MM),
                                STEP_US,
                                0);
                    lines.add(
                        String.join(
                            ",",
                            name,
                            Double.toString(distanceMm),
                            Double.toString(diameterUm),
                            Double.toString(scalePerMm),
                            values(potential)));
                  }
                }
              }
            });
    return lines;
  }

  private static Map<String, LeadField> leads(Tissue tissue) {
    Map<String, LeadField> leads = new LinkedHashMap<>();
    leads.put("point", LeadField.point(tissue).againstPointBehind(tissue, BEHIND_MM));
    for (String needle : List.of("single-fibre", "concentric-small", "concentric-standard")) {
      leads.put(
          needle,
          new LeadTable(
              new LeadFieldSolver()
                  .solve(
                      Needles.builtIn(needle), LeadFieldSettings.defaults().withTissue(tissue))));
    }
    return leads;
  }

  private static String values(FibrePotential potential) {
    double[] values = potential.copyUv();
    int centre = (int) Math.round((potential.steepestUs() - potential.startUs()) / STEP_US);
    StringBuilder text = new StringBuilder();
    for (int i = centre - HALF; i <= centre + HALF; i++) {
      double value = i < 0 || i >= values.length ? 0 : values[i];
      text.append(text.isEmpty() ? "" : " ")
          .append(Math.round(10_000 * value / potential.amplitudeUv()));
    }
    return text.toString();
  }
}
