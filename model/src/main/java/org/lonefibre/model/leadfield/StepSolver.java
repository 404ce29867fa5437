package org.lonefibre.model.leadfield;

import java.util.ArrayList;
import java.util.List;
import java.util.function.UnaryOperator;

/**
 * Solves linear systems of one matrix by generalised conjugate residuals (Eisenstat, Elman and
 * Schultz 1983, from memory), preconditioned from the right, without restart.
 *
 * <ul>
 *   <li>Directions and what the matrix makes of them stay, and others can be offered: a right side
 *       is first met by those that are there, which costs no product.
 *   <li>A complex vector holds all real parts, then all imaginary parts.
 *   <li>Thread rule: one thread.
 * </ul>
 */
final class StepSolver {

  private static final int MOST_STEPS = 300;

  /** A product this much shorter once the others are taken out says nothing new. */
  private static final double NOTHING_NEW_RATIO = 1e-7;

  private final Vectors vectors;
  private final UnaryOperator<double[]> product;
  private final UnaryOperator<double[]> nearly;
  private final List<double[]> directions = new ArrayList<>();
  private final List<double[]> images = new ArrayList<>();
  private final List<double[]> triangle = new ArrayList<>();

  /**
   * @param vectors their arithmetic
   * @param product what the matrix makes of a vector, in a new array
   * @param nearly what nearly solves for a vector, in a new array
   */
  StepSolver(Vectors vectors, UnaryOperator<double[]> product, UnaryOperator<double[]> nearly) {
    this.vectors = vectors;
    this.product = product;
    this.nearly = nearly;
  }

  /**
   * Takes a direction whose product is known.
   *
   * @param direction the direction; kept
   * @param image what the matrix makes of it; changed and kept
   * @return whether it says anything new
   */
  boolean offer(double[] direction, double[] image) {
    double before = vectors.norm(image);
    double[] column = new double[2 * images.size() + 2];
    for (int k = 0; k < images.size(); k++) {
      double[] share = vectors.dot(images.get(k), image);
      vectors.add(image, -share[0], -share[1], images.get(k));
      column[2 * k] = share[0];
      column[2 * k + 1] = share[1];
    }
    double length = vectors.norm(image);
    if (!(length > NOTHING_NEW_RATIO * before)) {
      return false;
    }
    vectors.scale(image, 1 / length);
    column[2 * images.size()] = length;
    directions.add(direction);
    images.add(image);
    triangle.add(column);
    return true;
  }

  /**
   * Solves for a right side.
   *
   * @param right the right side; not changed
   * @param tolerance largest residual over the right side's size
   * @throws LeadFieldException if the steps do not arrive
   */
  double[] solve(double[] right, double tolerance) {
    double[] residual = right.clone();
    double allowed = tolerance * vectors.norm(right);
    List<double[]> shares = new ArrayList<>();
    for (double[] image : images) {
      shares.add(takeOut(residual, image));
    }
    for (int step = 0; vectors.norm(residual) > allowed; step++) {
      double[] direction = nearly.apply(residual);
      vectors.scale(direction, 1 / vectors.norm(direction));
      if (step == MOST_STEPS || !offer(direction, product.apply(direction))) {
        throw new LeadFieldException(
            "the boundary equation is solved to "
                + vectors.norm(residual) / vectors.norm(right)
                + " after "
                + step
                + " steps, "
                + tolerance
                + " was asked");
      }
      shares.add(takeOut(residual, images.get(images.size() - 1)));
    }
    return combined(shares, right.length);
  }

  private double[] takeOut(double[] residual, double[] image) {
    double[] share = vectors.dot(image, residual);
    vectors.add(residual, -share[0], -share[1], image);
    return share;
  }

  /** Directions weighted so that their products sum to the shares of the upright ones. */
  private double[] combined(List<double[]> shares, int size) {
    double[] solution = new double[size];
    for (int i = shares.size() - 1; i >= 0; i--) {
      double[] weight = shares.get(i);
      for (int j = i + 1; j < shares.size(); j++) {
        double[] column = triangle.get(j);
        double[] entry = {column[2 * i], column[2 * i + 1]};
        weight = Complex.minus(weight, Complex.times(entry, shares.get(j)));
      }
      double length = triangle.get(i)[2 * i];
      shares.set(i, new double[] {weight[0] / length, weight[1] / length});
      vectors.add(solution, shares.get(i)[0], shares.get(i)[1], directions.get(i));
    }
    return solution;
  }
}
