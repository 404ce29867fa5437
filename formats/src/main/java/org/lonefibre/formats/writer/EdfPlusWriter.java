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
 * Writes a recording as EDF+C or BDF+C (Kemp and Olivan 2003), block by block.
 *
 * <ul>
 *   <li>A channel that knows its rails and its step keeps the converter's own numbers, to the bit;
 *       one that does not is spread over all steps there are.
 *   <li>Gaps are refused: they cannot be written as one continuous recording.
 *   <li>A record holds at most 61,440 bytes (Kemp et al. 1992); its duration is chosen so that the
 *       rate is exact in the eight characters of the header. Rates for which there is none are
 *       refused.
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
   * Writes all channels and annotations of a recording as EDF+C.
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
    List<Channel> channels = recording.channels();
    refuseUnwritable(channels);
    AnnotationLists lists =
        new AnnotationLists(recording.annotations(), BigDecimal.valueOf(start.getNano(), 9));
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
    String header =
        EdfPlusHeader.of(channels, scales, layout, annotationSamples, form, subject, start);
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

  private static void refuseUnwritable(List<Channel> channels) {
    if (channels.isEmpty()) {
      throw new IllegalArgumentException("a recording without channels cannot be written");
    }
    for (Channel channel : channels) {
      if (channel.segments().size() > 1) {
        throw new IllegalArgumentException(
            "channel "
                + channel.number()
                + " has gaps, which cannot be written as one continuous recording");
      }
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
    for (long record = 0; record < layout.records; record++) {
      for (int c = 0; c < samples.length; c++) {
        fill(recording, channels.get(c), record * samples[c].length, samples[c]);
        scales.get(c).encode(samples[c], bytes[c], form.sampleBytes);
        out.write(bytes[c]);
      }
      lists.fill(annotationBytes, record, layout.records, layout.duration);
      out.write(annotationBytes);
    }
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
