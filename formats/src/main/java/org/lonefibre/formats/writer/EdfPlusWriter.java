package org.lonefibre.formats.writer;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.UUID;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Recording;

/**
 * Writes a recording as EDF+ or BDF+ (Kemp and Olivan 2003), block by block.
 *
 * <ul>
 *   <li>A channel that knows its rails and its step keeps the converter's own numbers, to the bit;
 *       one that does not is spread over all steps there are.
 *   <li>A recording with gaps becomes EDF+D: its records never reach over one. Gaps that cut a
 *       record of every exact length, or that differ between channels, are refused.
 *   <li>The duration of a record is chosen so that the rate is exact in the eight characters of the
 *       header, in 61,440 bytes (Kemp et al. 1992) where that is possible, else in more. Rates for
 *       which there is none in 8 MiB are refused.
 *   <li>The last record is full where the length allows; else the last sample is held to its end.
 *   <li>Annotations carry seven decimals of a second; control characters in them become spaces.
 *   <li>The same recording gives the same bytes. The file appears whole or not at all.
 *   <li>Thread rule: safe, keeps nothing between calls.
 * </ul>
 */
public final class EdfPlusWriter {

  /** Room for annotations that a record begins with; engineering choice. */
  private static final int FIRST_ROOM_BYTES = 128;

  private EdfPlusWriter() {}

  /**
   * Writes all channels and annotations of a recording as EDF+.
   *
   * @param subject code of the subject; {@code X} if empty
   * @param start start of the recording
   * @throws IllegalArgumentException if the recording cannot be written without a change
   */
  public static void write(Recording recording, String subject, LocalDateTime start, Path file)
      throws IOException {
    write(recording, subject, start, file, EdfForm.EDF_PLUS);
  }

  /**
   * Writes all channels and annotations of a recording.
   *
   * @param subject code of the subject; {@code X} if empty
   * @param start start of the recording; a fraction of a second is kept
   * @throws IllegalArgumentException if the recording cannot be written without a change
   */
  public static void write(
      Recording recording, String subject, LocalDateTime start, Path file, EdfForm form)
      throws IOException {
    write(recording, EdfIdentity.of(subject, start), file, form);
  }

  /**
   * Writes all channels and annotations of a recording.
   *
   * @param identity who was recorded, when and how
   * @throws IllegalArgumentException if the recording cannot be written without a change
   */
  public static void write(Recording recording, EdfIdentity identity, Path file, EdfForm form)
      throws IOException {
    List<Channel> channels = recording.channels();
    if (channels.isEmpty()) {
      throw new IllegalArgumentException("a recording without channels cannot be written");
    }
    AnnotationLists lists = new AnnotationLists(recording.annotations(), identity.startFraction());
    int room = FIRST_ROOM_BYTES;
    RecordLayout layout = layout(channels, form, room);
    while (lists.bytesNeeded(layout.records) > room) {
      room = lists.bytesNeeded(layout.records);
      layout = layout(channels, form, room);
    }
    if (layout.records == 0 && !lists.isEmpty()) {
      throw new IllegalArgumentException("annotations need at least one sample to stand with");
    }
    List<DigitalScale> scales = new ArrayList<>();
    for (Channel channel : channels) {
      scales.add(DigitalScale.of(recording, channel, form));
    }
    int annotationSamples = (room + form.sampleBytes - 1) / form.sampleBytes;
    String header = EdfPlusHeader.of(channels, scales, layout, annotationSamples, form, identity);
    Path part = file.resolveSibling("." + file.getFileName() + "." + UUID.randomUUID() + ".part");
    try {
      try (OutputStream out =
          new BufferedOutputStream(
              Files.newOutputStream(part, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE),
              1 << 18)) {
        out.write(header.getBytes(StandardCharsets.ISO_8859_1));
        records(
            recording,
            layout,
            scales,
            lists,
            new byte[annotationSamples * form.sampleBytes],
            form,
            out);
      }
      Files.move(part, file, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
    } finally {
      Files.deleteIfExists(part);
    }
  }

  private static RecordLayout layout(List<Channel> channels, EdfForm form, int annotationBytes) {
    int room = RecordLayout.MOST_RECORD_BYTES - annotationBytes - form.sampleBytes;
    if (room <= 0) {
      throw new IllegalArgumentException(
          "the annotations need " + annotationBytes + " bytes a record, more than one holds");
    }
    return RecordLayout.of(channels, form.sampleBytes, room);
  }

  private static void records(
      Recording recording,
      RecordLayout layout,
      List<DigitalScale> scales,
      AnnotationLists lists,
      byte[] annotationBytes,
      EdfForm form,
      OutputStream out)
      throws IOException {
    List<Channel> channels = recording.channels();
    double[][] samples = new double[channels.size()][];
    byte[][] bytes = new byte[channels.size()][];
    for (int c = 0; c < samples.length; c++) {
      samples[c] = new double[layout.samplesPerRecord(c)];
      bytes[c] = new byte[samples[c].length * form.sampleBytes];
    }
    long record = 0;
    for (int s = 0; s < layout.segments(); s++) {
      BigDecimal start = start(channels.get(0), s);
      for (long within = 0; within < layout.recordsOfSegment(s); within++) {
        for (int c = 0; c < samples.length; c++) {
          Channel channel = channels.get(c);
          long first = channel.segments().isEmpty() ? 0 : channel.segments().get(s).firstSample();
          fill(recording, channel, first + within * samples[c].length, samples[c]);
          scales.get(c).encode(samples[c], bytes[c], form.sampleBytes);
          out.write(bytes[c]);
        }
        BigDecimal time = start.add(layout.duration.multiply(BigDecimal.valueOf(within)));
        lists.fill(annotationBytes, record, layout.records, time, layout.duration);
        out.write(annotationBytes);
        record++;
      }
    }
  }

  private static BigDecimal start(Channel channel, int segment) {
    return channel.segments().isEmpty()
        ? BigDecimal.ZERO
        : BigDecimal.valueOf(channel.segments().get(segment).startS());
  }

  /** The samples of one record; after the last one its value is held. */
  private static void fill(Recording recording, Channel channel, long first, double[] samples)
      throws IOException {
    int there = (int) Math.max(0, Math.min(samples.length, channel.sampleCount() - first));
    if (there > 0) {
      recording.read(channel, first, samples, 0, there);
    }
    double held = there > 0 ? samples[there - 1] : samples[samples.length - 1];
    Arrays.fill(samples, there, samples.length, held);
  }
}
