package org.lonefibre.benchmarks;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.lonefibre.model.electrode.NeedleMesh;
import org.lonefibre.model.electrode.Needles;
import org.lonefibre.model.electrode.Surface;

/** Writes half of a needle's surface for other programs to solve: a triangle a line. */
public final class NeedleSurfaces {

  private NeedleSurfaces() {}

  /**
   * Writes it.
   *
   * @param arguments name of a built-in needle, fineness, file
   */
  public static void main(String[] arguments) throws IOException {
    Surface half = NeedleMesh.half(Needles.builtIn(arguments[0]), Double.parseDouble(arguments[1]));
    try (PrintWriter out =
        new PrintWriter(
            Files.newBufferedWriter(Path.of(arguments[2]), StandardCharsets.US_ASCII))) {
      for (int t = 0; t < half.triangles(); t++) {
        for (int corner = 0; corner < 3; corner++) {
          for (double place : half.cornerMm(t, corner)) {
            out.print(place + ",");
          }
        }
        out.println(
            switch (half.region(t)) {
              case INSULATION -> 0;
              case CORE -> 1;
              case SHAFT -> 2;
            });
      }
    }
  }
}
