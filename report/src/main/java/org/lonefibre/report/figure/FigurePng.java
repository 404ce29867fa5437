package org.lonefibre.report.figure;

import java.io.ByteArrayOutputStream;
import java.io.StringReader;
import org.apache.batik.transcoder.SVGAbstractTranscoder;
import org.apache.batik.transcoder.TranscoderException;
import org.apache.batik.transcoder.TranscoderInput;
import org.apache.batik.transcoder.TranscoderOutput;
import org.apache.batik.transcoder.image.PNGTranscoder;

/**
 * A figure as pixels, for programs that take no vector graphics. Letters come from the fonts of the
 * machine.
 */
public final class FigurePng {

  private FigurePng() {}

  /**
   * The bytes of a PNG file.
   *
   * @param figure the figure
   * @param widthPixels its width, 100 to 8,000; the height follows
   */
  public static byte[] of(Figure figure, int widthPixels) {
    if (widthPixels < 100 || widthPixels > 8000) {
      throw new IllegalArgumentException("width must be 100 to 8000 pixels, found " + widthPixels);
    }
    PNGTranscoder transcoder = new PNGTranscoder();
    transcoder.addTranscodingHint(SVGAbstractTranscoder.KEY_WIDTH, (float) widthPixels);
    transcoder.addTranscodingHint(SVGAbstractTranscoder.KEY_ALLOW_EXTERNAL_RESOURCES, false);
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try {
      transcoder.transcode(
          new TranscoderInput(new StringReader(figure.svg())), new TranscoderOutput(bytes));
    } catch (TranscoderException e) {
      throw new IllegalStateException("a figure could not be drawn: " + e.getMessage(), e);
    }
    return bytes.toByteArray();
  }
}
