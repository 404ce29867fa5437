package org.lonefibre.model.motorunit;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.model.fibre.FibreGeometry;
import org.lonefibre.signal.random.RandomStream;

/** Draws motor units at random about a needle that lies within their territories. */
final class MuscleDraw {

  private final SampleMuscleSettings settings;

  MuscleDraw(SampleMuscleSettings settings) {
    this.settings = settings;
  }

  /** Fibres of a unit whose territory holds the needle. */
  List<PlacedFibre> unit(RandomStream stream) {
    double[] middle = inDisc(settings.territoryRadiusMm(), stream);
    List<PlacedFibre> fibres = new ArrayList<>();
    for (int f = 0; f < settings.fibresPerUnit(); f++) {
      double[] place = inDisc(settings.territoryRadiusMm(), stream);
      double out = middle[0] + place[0];
      double side = middle[1] + place[1];
      if (f > 0 && stream.happens(settings.clusteredRatio())) {
        PlacedFibre other = fibres.get(stream.below(f));
        out = other.outMm() + settings.clusterMm() * stream.gaussianRatio();
        side = other.sideMm() + settings.clusterMm() * stream.gaussianRatio();
      }
      double diameter =
          within(25, 100, settings.diameterUm(), settings.diameterDeviationUm(), stream);
      double endPlate =
          within(2, 80, settings.endPlateDistanceMm(), settings.endPlateDeviationMm(), stream);
      fibres.add(
          new PlacedFibre(
              out,
              side,
              FibreGeometry.defaults()
                  .withDiameterUm(diameter)
                  .withEndPlateDistanceMm(endPlate)
                  .withDistanceMm(PlacedFibre.distanceMm(out, side))));
    }
    return fibres;
  }

  private static double[] inDisc(double radius, RandomStream stream) {
    double size = radius * Math.sqrt(stream.uniformProbability());
    double angle = 2 * Math.PI * stream.uniformProbability();
    return new double[] {size * Math.cos(angle), size * Math.sin(angle)};
  }

  private static double within(
      double low, double high, double mean, double deviation, RandomStream stream) {
    return Math.max(low, Math.min(high, mean + deviation * stream.gaussianRatio()));
  }
}
