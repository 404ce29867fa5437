package org.lonefibre.formats.writer;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.TimeBase;

/**
 * Writes a recording as EDF+C, 16 bits.
 *
 * <ul>
 *   <li>Samples are rounded to the channel's step ({@link Channel#resolutionUv()}, or its range
 *       over 65,535 steps); what was written is read again to the bit.
 *   <li>All channels need one duration; gaps are refused.
 *   <li>A record holds at most 61,440 bytes (Kemp et al. 1992); its duration is chosen so that the
 *       rate is exact in the eight characters of the header.
 *   <li>The file appears whole or not at all.
 *   <li>Thread rule: safe, keeps nothing between calls.
 * </ul>
 */
public final class EdfPlusWriter {

  private static final int MOST_RECORD_BYTES = 61_440;
  private static final int ANNOTATION_BYTES = 256;

  private EdfPlusWriter() {}

  /**
   * Writes all channels and annotations of a recording.
   *
   * @param subject code of the subject; {@code X} if empty
   * @param start start of the recording
   * @throws IllegalArgumentException if the recording cannot be written without a change
   */
  public static void write(Recording recording, String subject, LocalDateTime start, Path file)
      throws IOException {
    Layout layout = new Layout(recording);
    Path part =
        Files.createTempFile(
            file.toAbsolutePath().getParent(), ".part-" + file.getFileName(), ".tmp");
    try {
      try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(part), 1 << 18)) {
        out.write(layout.header(subject, start).getBytes(StandardCharsets.US_ASCII));
        layout.records(out);
      }
      Files.move(part, file, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
    } finally {
      Files.deleteIfExists(part);
    }
  }

  /** Where everything stands in the file. */
  private static final class Layout {

    private final Recording recording;
    private final List<Channel> channels;
    private final BigDecimal durationS;
    private final int[] samplesPerRecord;
    private final long records;
    private final List<List<Annotation>> annotations = new ArrayList<>();
    private final List<Scale> scales = new ArrayList<>();

    Layout(Recording recording) {
      this.recording = recording;
      this.channels = recording.channels();
      if (channels.isEmpty()) {
        throw new IllegalArgumentException("a recording without channels cannot be written");
      }
      for (Channel channel : channels) {
        if (channel.segments().size() > 1) {
          throw new IllegalArgumentException("gaps cannot be written as EDF+C");
        }
      }
      this.durationS = duration(channels);
      this.samplesPerRecord =
          channels.stream().mapToInt(c -> samples(c.timeBase(), durationS)).toArray();
      long count = 0;
      for (int c = 0; c < samplesPerRecord.length; c++) {
        count =
            Math.max(
                count,
                (channels.get(c).sampleCount() + samplesPerRecord[c] - 1) / samplesPerRecord[c]);
      }
      this.records = count;
      for (Channel channel : channels) {
        scales.add(Scale.of(channel));
      }
      for (long r = 0; r < records; r++) {
        annotations.add(new ArrayList<>());
      }
      for (Annotation annotation : recording.annotations()) {
        int record = (int) (annotation.startS() / durationS.doubleValue());
        annotations.get(Math.max(0, Math.min((int) records - 1, record))).add(annotation);
      }
    }

    /** The longest duration of a record that is exact for all rates and short enough. */
    private static BigDecimal duration(List<Channel> channels) {
      BigInteger seconds = BigInteger.ONE;
      BigInteger samples = BigInteger.ZERO;
      for (Channel channel : channels) {
        BigInteger own = BigInteger.valueOf(channel.timeBase().seconds());
        seconds = seconds.multiply(own).divide(seconds.gcd(own));
        samples = samples.gcd(BigInteger.valueOf(channel.timeBase().samples()));
      }
      double bytesPerSecond =
          channels.stream().mapToDouble(c -> 2 * c.timeBase().samplingRateHz()).sum();
      double longest = (MOST_RECORD_BYTES - 2 * ANNOTATION_BYTES) / bytesPerSecond;
      BigDecimal best = null;
      for (long divisor = 1; divisor <= 1_000_000; divisor++) {
        BigInteger[] even = samples.divideAndRemainder(BigInteger.valueOf(divisor));
        if (even[1].signum() != 0) {
          continue;
        }
        BigDecimal candidate;
        try {
          candidate =
              new BigDecimal(seconds).divide(BigDecimal.valueOf(divisor)).stripTrailingZeros();
        } catch (ArithmeticException e) {
          continue;
        }
        if (candidate.toPlainString().length() > 8) {
          continue;
        }
        if (candidate.doubleValue() <= longest) {
          best = candidate;
          break;
        }
      }
      if (best == null) {
        throw new IllegalArgumentException(
            "these sampling rates cannot be written exactly in one EDF+ file");
      }
      return best;
    }

    private static int samples(TimeBase timeBase, BigDecimal durationS) {
      return new BigDecimal(timeBase.samples())
          .multiply(durationS)
          .divide(new BigDecimal(timeBase.seconds()), 0, RoundingMode.UNNECESSARY)
          .intValueExact();
    }

    String header(String subject, LocalDateTime start) {
      StringBuilder text = new StringBuilder();
      int signals = channels.size() + 1;
      field(text, "0", 8);
      field(text, (subject.isEmpty() ? "X" : subject.replace(' ', '_')) + " X X X", 80);
      String[] months = {
        "JAN", "FEB", "MAR", "APR", "MAY", "JUN", "JUL", "AUG", "SEP", "OCT", "NOV", "DEC"
      };
      field(
          text,
          String.format(
              Locale.ROOT,
              "Startdate %02d-%s-%04d X X X",
              start.getDayOfMonth(),
              months[start.getMonthValue() - 1],
              start.getYear()),
          80);
      field(
          text,
          String.format(
              Locale.ROOT,
              "%02d.%02d.%02d",
              start.getDayOfMonth(),
              start.getMonthValue(),
              start.getYear() % 100),
          8);
      field(
          text,
          String.format(
              Locale.ROOT, "%02d.%02d.%02d", start.getHour(), start.getMinute(), start.getSecond()),
          8);
      field(text, Integer.toString(256 * (signals + 1)), 8);
      field(text, "EDF+C", 44);
      field(text, Long.toString(records), 8);
      field(text, durationS.toPlainString(), 8);
      field(text, Integer.toString(signals), 4);
      column(text, 16, c -> c.label(), "EDF Annotations");
      column(text, 80, c -> "", "");
      column(text, 8, c -> c.calibration() == Channel.Calibration.MICROVOLT ? "uV" : c.unit(), "");
      for (Scale scale : scales) {
        field(text, scale.physicalLow, 8);
      }
      field(text, "-1", 8);
      for (Scale scale : scales) {
        field(text, scale.physicalHigh, 8);
      }
      field(text, "1", 8);
      column(text, 8, c -> "-32768", "-32768");
      column(text, 8, c -> "32767", "32767");
      column(text, 80, c -> c.prefilter(), "");
      for (int samples : samplesPerRecord) {
        field(text, Integer.toString(samples), 8);
      }
      field(text, Integer.toString(ANNOTATION_BYTES), 8);
      column(text, 32, c -> "", "");
      return text.toString();
    }

    private void column(
        StringBuilder text,
        int width,
        java.util.function.Function<Channel, String> value,
        String last) {
      for (Channel channel : channels) {
        field(text, value.apply(channel), width);
      }
      field(text, last, width);
    }

    private static void field(StringBuilder text, String value, int width) {
      String ascii = value.replaceAll("[^\\x20-\\x7e]", "_");
      String cut = ascii.length() > width ? ascii.substring(0, width) : ascii;
      text.append(cut).append(" ".repeat(width - cut.length()));
    }

    void records(OutputStream out) throws IOException {
      double[][] samples = new double[channels.size()][];
      byte[] bytes = new byte[2 * ANNOTATION_BYTES];
      for (int c = 0; c < samples.length; c++) {
        samples[c] = new double[samplesPerRecord[c]];
      }
      for (int r = 0; r < records; r++) {
        for (int c = 0; c < samples.length; c++) {
          long first = (long) r * samplesPerRecord[c];
          int there =
              (int)
                  Math.max(0, Math.min(samplesPerRecord[c], channels.get(c).sampleCount() - first));
          recording.read(channels.get(c), first, samples[c], 0, there);
          java.util.Arrays.fill(samples[c], there, samples[c].length, 0);
          out.write(scales.get(c).encode(samples[c]));
        }
        java.util.Arrays.fill(bytes, (byte) 0);
        annotate(r, bytes);
        out.write(bytes);
      }
    }

    private void annotate(int record, byte[] bytes) {
      StringBuilder text = new StringBuilder();
      text.append('+')
          .append(
              durationS.multiply(BigDecimal.valueOf(record)).stripTrailingZeros().toPlainString())
          .append("\u0014\u0014\u0000");
      for (Annotation annotation : annotations.get(record)) {
        text.append(String.format(Locale.ROOT, "%+.7f", annotation.startS()));
        Double duration = annotation.durationS();
        if (duration != null) {
          text.append('\u0015').append(String.format(Locale.ROOT, "%.7f", duration));
        }
        text.append('\u0014').append(annotation.text()).append("\u0014\u0000");
      }
      byte[] written = text.toString().getBytes(StandardCharsets.UTF_8);
      if (written.length > bytes.length) {
        throw new IllegalArgumentException(
            "too many annotations within one record of " + durationS + " s");
      }
      System.arraycopy(written, 0, bytes, 0, written.length);
    }
  }

  /** The scale of one channel, as its eight characters can say it. */
  private static final class Scale {

    final String physicalLow;
    final String physicalHigh;
    private final double gain;
    private final double offset;

    private Scale(String low, String high) {
      physicalLow = low;
      physicalHigh = high;
      double from = Double.parseDouble(low);
      double to = Double.parseDouble(high);
      gain = (to - from) / 65_535;
      offset = from + gain * 32_768;
    }

    static Scale of(Channel channel) {
      Double low = channel.lowRailUv();
      Double high = channel.highRailUv();
      Double step = channel.resolutionUv();
      if (low == null || high == null) {
        double half = step == null ? 32_767 : step * 32_767;
        return new Scale(number(-half), number(half));
      }
      return new Scale(number(low), number(high));
    }

    /** The number in at most eight characters. */
    private static String number(double value) {
      for (int digits = 7; digits >= 0; digits--) {
        String text =
            new BigDecimal(value)
                .setScale(digits, RoundingMode.HALF_EVEN)
                .stripTrailingZeros()
                .toPlainString();
        if (text.length() <= 8) {
          return text;
        }
      }
      throw new IllegalArgumentException("a range of " + value + " uV does not fit EDF");
    }

    byte[] encode(double[] samples) {
      byte[] bytes = new byte[2 * samples.length];
      for (int k = 0; k < samples.length; k++) {
        long value = Math.max(-32_768, Math.min(32_767, Math.round((samples[k] - offset) / gain)));
        bytes[2 * k] = (byte) value;
        bytes[2 * k + 1] = (byte) (value >> 8);
      }
      return bytes;
    }
  }
}
