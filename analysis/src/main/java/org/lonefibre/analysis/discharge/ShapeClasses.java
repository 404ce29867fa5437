package org.lonefibre.analysis.discharge;

import java.util.ArrayList;
import java.util.List;

/**
 * Puts spikes of like shape together: one pass in order of time with running mean shapes (so that a
 * slow change is followed), then classes that have grown alike are joined.
 */
final class ShapeClasses {

  /** Residual energy, in noise energies, that a member may have. */
  private static final double NOISE_ALLOWANCE = 2.2;

  /** Residual energy, over the energy of the shape, that a member may have. */
  private static final double SHAPE_ALLOWANCE = 0.06;

  private static final int MOST_CLASSES = 400;
  private static final double SLOWEST_GAIN = 0.05;

  private final List<double[]> means = new ArrayList<>();
  private final List<Integer> sizes = new ArrayList<>();
  private final double noiseEnergy;

  private ShapeClasses(double noiseUv) {
    this.noiseEnergy = noiseUv * noiseUv * Snippets.LENGTH;
  }

  /** Labels every spike; labels run from 0 without holes. */
  static int label(SpikeTrain spikes, Snippets snippets, double noiseUv) {
    ShapeClasses classes = new ShapeClasses(noiseUv);
    for (int i = 0; i < spikes.count; i++) {
      spikes.label[i] = classes.place(snippets, i);
    }
    return classes.join(spikes);
  }

  private int place(Snippets snippets, int i) {
    int best = -1;
    double nearest = Double.MAX_VALUE;
    for (int c = 0; c < means.size(); c++) {
      double[] mean = means.get(c);
      double distance = snippets.distance(i, mean) / allowance(Snippets.energy(mean));
      if (distance < nearest) {
        nearest = distance;
        best = c;
      }
    }
    if (nearest > 1 && means.size() < MOST_CLASSES) {
      means.add(snippets.shape(i));
      sizes.add(1);
      return means.size() - 1;
    }
    double[] mean = means.get(best);
    int size = sizes.get(best) + 1;
    double gain = Math.max(SLOWEST_GAIN, 1.0 / size);
    for (int k = 0; k < mean.length; k++) {
      mean[k] += gain * (snippets.value(i, k) - mean[k]);
    }
    sizes.set(best, size);
    return best;
  }

  private double allowance(double energy) {
    return NOISE_ALLOWANCE * noiseEnergy + SHAPE_ALLOWANCE * energy;
  }

  private int join(SpikeTrain spikes) {
    int[] into = new int[means.size()];
    int classes = 0;
    for (int c = 0; c < into.length; c++) {
      into[c] = -1;
      for (int d = 0; d < c && into[c] < 0; d++) {
        if (sizes.get(c) > 2 && sizes.get(d) > 2 && alike(means.get(c), means.get(d))) {
          into[c] = into[d];
        }
      }
      if (into[c] < 0) {
        into[c] = classes++;
      }
    }
    for (int i = 0; i < spikes.count; i++) {
      spikes.label[i] = into[spikes.label[i]];
    }
    return classes;
  }

  private boolean alike(double[] a, double[] b) {
    double distance = 0;
    for (int k = 0; k < a.length; k++) {
      distance += (a[k] - b[k]) * (a[k] - b[k]);
    }
    double energy = Math.min(Snippets.energy(a), Snippets.energy(b));
    return distance < 0.5 * noiseEnergy + 0.02 * energy;
  }
}
