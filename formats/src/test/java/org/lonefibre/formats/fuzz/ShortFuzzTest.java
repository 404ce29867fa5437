package org.lonefibre.formats.fuzz;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * A short run of the fuzzing on every build: all seeds, and mutations of them from a fixed seed of
 * randomness. The long run, led by coverage, is {@code ./fuzz} (docs/fuzzing.md).
 */
@Tag("property")
class ShortFuzzTest {

  private static final int MUTATIONS = 1_500;
  private static final byte[] TELLING =
      "0123456789+-./:()~x,;\n\t \0".getBytes(java.nio.charset.StandardCharsets.US_ASCII);

  @TempDir Path folder;

  @ParameterizedTest
  @EnumSource
  void everySeedIsReadOrRefusedWithItsPlace(FuzzTarget target) throws IOException {
    ReaderCheck check = new ReaderCheck(target, folder);
    target.seeds().forEach(check::accept);
    assertThat(check.read()).isGreaterThanOrEqualTo(4);
  }

  @ParameterizedTest
  @EnumSource
  void brokenFilesAreReadOrRefusedWithTheirPlace(FuzzTarget target) throws IOException {
    ReaderCheck check = new ReaderCheck(target, folder);
    List<byte[]> seeds = target.seeds();
    for (int k = 0; k < MUTATIONS; k++) {
      Random random = new Random(1_000L * target.ordinal() + k);
      byte[] input = mutated(seeds.get(random.nextInt(seeds.size())), random);
      try {
        check.accept(input);
      } catch (AssertionError | RuntimeException e) {
        throw new AssertionError(target + ", mutation " + k + ": " + e.getMessage(), e);
      }
    }
    assertThat(check.read()).as("inputs that were read").isGreaterThan(MUTATIONS / 50);
    assertThat(check.refused()).as("inputs that were refused").isGreaterThan(MUTATIONS / 50);
  }

  /** Changes, removes, repeats or cuts a few bytes. */
  private static byte[] mutated(byte[] seed, Random random) {
    byte[] input = seed;
    int changes = 1 + random.nextInt(6);
    for (int c = 0; c < changes && input.length > 0; c++) {
      int at = random.nextInt(random.nextBoolean() ? input.length : Math.min(input.length, 300));
      int length = 1 + random.nextInt(Math.min(20, input.length - at));
      switch (random.nextInt(6)) {
        case 0 -> input = put(input, at, (byte) random.nextInt(256));
        case 1, 2 -> input = put(input, at, TELLING[random.nextInt(TELLING.length)]);
        case 3 -> input = joined(input, at, Arrays.copyOfRange(input, at, at + length), at);
        case 4 -> input = joined(input, at, new byte[0], at + length);
        default -> input = random.nextInt(4) == 0 ? Arrays.copyOf(input, at) : input;
      }
    }
    return input;
  }

  private static byte[] put(byte[] input, int at, byte value) {
    byte[] changed = input.clone();
    changed[at] = value;
    return changed;
  }

  /** The input up to a place, something, and the input from another place on. */
  private static byte[] joined(byte[] input, int end, byte[] between, int from) {
    byte[] all = new byte[end + between.length + input.length - from];
    System.arraycopy(input, 0, all, 0, end);
    System.arraycopy(between, 0, all, end, between.length);
    System.arraycopy(input, from, all, end + between.length, input.length - from);
    return all;
  }
}
