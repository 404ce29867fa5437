package org.lonefibre.signal.random;

/**
 * A stream of random numbers that is the same on every machine and for ever.
 *
 * <ul>
 *   <li>Generator: xoshiro256++ (Blackman and Vigna 2019), its state filled by SplitMix64 (Steele,
 *       Lea and Flood 2014); both from memory, held to known outputs by tests.
 *   <li>{@link #child(String)} makes a stream from the name of this one, never from its state:
 *       drawing more or fewer numbers here, or adding a sister, changes no other stream.
 *   <li>Thread rule: one thread at a time; children are independent.
 * </ul>
 */
public final class RandomStream {

  private static final long GOLDEN = 0x9E3779B97F4A7C15L;

  private final long name;
  private long s0;
  private long s1;
  private long s2;
  private long s3;

  private RandomStream(long name) {
    this.name = name;
    long state = name;
    s0 = mix(state += GOLDEN);
    s1 = mix(state += GOLDEN);
    s2 = mix(state += GOLDEN);
    s3 = mix(state + GOLDEN);
  }

  /** A stream in a given state, for known outputs. */
  RandomStream(long s0, long s1, long s2, long s3) {
    this.name = 0;
    this.s0 = s0;
    this.s1 = s1;
    this.s2 = s2;
    this.s3 = s3;
  }

  /** The stream of a seed; any seed will do. */
  public static RandomStream of(long seed) {
    return new RandomStream(seed);
  }

  /** The stream that bears a name below this one. */
  public RandomStream child(String childName) {
    long hash = 0xCBF29CE484222325L;
    for (int i = 0; i < childName.length(); i++) {
      hash = (hash ^ childName.charAt(i)) * 0x100000001B3L;
    }
    return child(hash);
  }

  /** The stream that bears a number below this one. */
  public RandomStream child(long number) {
    return new RandomStream(mix(mix(name + GOLDEN) ^ (number * 0xD1342543DE82EF95L + GOLDEN)));
  }

  /** The next 64 bits. */
  public long nextBits() {
    long result = Long.rotateLeft(s0 + s3, 23) + s0;
    long t = s1 << 17;
    s2 ^= s0;
    s3 ^= s1;
    s1 ^= s2;
    s0 ^= s3;
    s2 ^= t;
    s3 = Long.rotateLeft(s3, 45);
    return result;
  }

  /** A number from 0 to below 1, evenly spread, in steps of 2^-53. */
  public double uniformProbability() {
    return (nextBits() >>> 11) * 0x1p-53;
  }

  /** Whether an event of this probability happens; draws one number whatever the probability. */
  public boolean happens(double probability) {
    return uniformProbability() < probability;
  }

  /**
   * A whole number from 0 to below a bound.
   *
   * @param bound at least 1; the bias is below bound / 2^53
   */
  public int below(int bound) {
    if (bound < 1) {
      throw new IllegalArgumentException("bound must be 1 or more, found " + bound);
    }
    return (int) (uniformProbability() * bound);
  }

  /** A Gaussian deviate of mean 0, in ratio to its standard deviation. */
  public double gaussianRatio() {
    return Ziggurat.next(this);
  }

  /** An exponential deviate, in ratio to its mean. */
  public double exponentialRatio() {
    return -StrictMath.log(1 - uniformProbability());
  }

  /**
   * A gamma deviate, in ratio to its scale (Marsaglia and Tsang 2000, from memory).
   *
   * @param shape 1 or more
   */
  public double gammaRatio(double shape) {
    if (!(shape >= 1)) {
      throw new IllegalArgumentException("shape of a gamma law must be 1 or more, found " + shape);
    }
    double d = shape - 1.0 / 3;
    double c = 1 / StrictMath.sqrt(9 * d);
    while (true) {
      double x = gaussianRatio();
      double v = 1 + c * x;
      if (v > 0) {
        v = v * v * v;
        double u = 1 - uniformProbability();
        if (StrictMath.log(u) < 0.5 * x * x + d - d * v + d * StrictMath.log(v)) {
          return d * v;
        }
      }
    }
  }

  /**
   * A Poisson count, by multiplying uniform numbers (Knuth, from memory).
   *
   * @param mean 0 to 500
   */
  public int poisson(double mean) {
    if (!(mean >= 0 && mean <= 500)) {
      throw new IllegalArgumentException("mean of a Poisson law must be 0 to 500, found " + mean);
    }
    double limit = StrictMath.exp(-mean);
    double product = 1 - uniformProbability();
    int count = 0;
    while (product > limit) {
      product *= 1 - uniformProbability();
      count++;
    }
    return count;
  }

  static long mix(long value) {
    long z = value;
    z = (z ^ (z >>> 30)) * 0xBF58476D1CE4E5B9L;
    z = (z ^ (z >>> 27)) * 0x94D049BB133111EBL;
    return z ^ (z >>> 31);
  }
}
