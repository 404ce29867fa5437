package org.lonefibre.analysis.potential;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.analysis.potential.Explanation.Part;
import org.lonefibre.analysis.potential.Explanation.Volley;

/**
 * Improves an explanation whose discharges are known: a step by step search may have taken a
 * potential for another that it resembles, or left it where the others had not yet been.
 */
final class CollisionImprovement {

  private static final double STRAYED = 1.8;
  private static final double ODD = 3;

  private final PartLikelihood likelihood;
  private final double noiseUv;

  CollisionImprovement(PartLikelihood likelihood, double noiseUv) {
    this.likelihood = likelihood;
    this.noiseUv = noiseUv;
  }

  /** The explanation, or a likelier one of the same discharges. */
  Explanation improve(Explanation found, double[] window) {
    return exchanged(completed(recalled(lookedAgain(found, window), window), window), window);
  }

  /** Looks once more for each part, and for those left out, with all others in their place. */
  private Explanation lookedAgain(Explanation found, double[] window) {
    Explanation best = found;
    for (Volley volley : found.parts().stream().map(Part::volley).distinct().toList()) {
      for (int p = 0; p < volley.track().potentials; p++) {
        int potential = p;
        List<Part> others =
            best.parts().stream()
                .filter(part -> part.volley() != volley || part.potential() != potential)
                .toList();
        Part again = likelihood.scanned(volley, p, Explanation.asPlaced(others, window).left());
        boolean moved =
            again != null
                && best.parts().stream()
                    .noneMatch(
                        part ->
                            part.volley() == volley
                                && part.potential() == potential
                                && Math.abs(part.position() - again.position()) < 1);
        if (moved && again != null) {
          List<Part> parts = new ArrayList<>(others);
          parts.add(again);
          Explanation other = Explanation.fitted(parts, window, noiseUv, likelihood::isLikely);
          best = likelihood.cost(other) < likelihood.cost(best) ? other : best;
        }
      }
    }
    return best;
  }

  /** Sends parts that strayed back to where they should be, all at once, and fits again. */
  private Explanation recalled(Explanation found, double[] window) {
    List<Part> parts = new ArrayList<>();
    boolean strayed = false;
    for (Part part : found.parts()) {
      Volley volley = part.volley();
      int p = part.potential();
      double expected = found.anchor(volley) + volley.track().lag[p];
      boolean far =
          Math.abs(part.position() - expected) > STRAYED * likelihood.spread(volley.track(), p);
      parts.add(far ? Part.at(volley, p, expected) : part);
      strayed |= far;
    }
    return strayed ? likelier(parts, found, window) : found;
  }

  /**
   * Puts what is missing, and what strayed, where it should be, all at once, and fits again: one
   * that strayed onto another's place hides that the other is there.
   */
  private Explanation completed(Explanation found, double[] window) {
    List<Part> parts = new ArrayList<>();
    boolean changed = false;
    for (Volley volley : found.parts().stream().map(Part::volley).distinct().toList()) {
      double anchor = found.anchor(volley);
      for (int p = 0; p < volley.track().potentials; p++) {
        double expected = anchor + volley.track().lag[p];
        double far = STRAYED * likelihood.spread(volley.track(), p);
        Part own = found.part(volley, p);
        boolean stays = own != null && Math.abs(own.position() - expected) <= far;
        parts.add(own != null && stays ? own : Part.at(volley, p, expected));
        changed |= !stays;
      }
    }
    return changed ? likelier(parts, found, window) : found;
  }

  /** These parts fitted to the window if that is likelier than what was found. */
  private Explanation likelier(List<Part> parts, Explanation found, double[] window) {
    Explanation again = Explanation.fitted(parts, window, noiseUv, likelihood::isLikely);
    return !again.parts().isEmpty() && likelihood.cost(again) < likelihood.cost(found)
        ? again
        : found;
  }

  /** Lets two potentials of different discharges change places where one lies oddly. */
  private Explanation exchanged(Explanation found, double[] window) {
    Explanation best = found;
    int n = found.parts().size();
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < i; j++) {
        Part one = best.parts().get(i);
        Part other = best.parts().get(j);
        if (one.volley() == other.volley() || !(isOdd(best, one) || isOdd(best, other))) {
          continue;
        }
        List<Part> parts = new ArrayList<>(best.parts());
        parts.set(i, Part.at(one.volley(), one.potential(), other.position()));
        parts.set(j, Part.at(other.volley(), other.potential(), one.position()));
        Explanation again = Explanation.fitted(parts, window, noiseUv, part -> true);
        boolean holds = again.parts().stream().allMatch(likelihood::isPlausibleSize);
        best = holds && likelihood.cost(again) < likelihood.cost(best) ? again : best;
      }
    }
    return best;
  }

  private boolean isOdd(Explanation found, Part part) {
    double anchor = found.anchor(part.volley());
    double off = part.position() - anchor - part.volley().track().lag[part.potential()];
    return Math.abs(off) > ODD * likelihood.spread(part.volley().track(), part.potential());
  }
}
