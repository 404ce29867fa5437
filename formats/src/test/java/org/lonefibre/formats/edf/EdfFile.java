package org.lonefibre.formats.edf;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.IntFunction;

/** Makes EDF and BDF files byte by byte, right or wrong as a test wants them. */
public final class EdfFile {

  private static final class Signal {
    String label = "EMG";
    String unit = "uV";
    String physicalLow = "-3276.8";
    String physicalHigh = "3276.7";
    String digitalLow = "-32768";
    String digitalHigh = "32767";
    String prefilter = "HP:500Hz LP:10000Hz";
    int samples = 10;
    boolean annotates;
  }

  private final int sampleBytes;
  private final List<Signal> signals = new ArrayList<>();
  private String reserved = "";
  private String date = "24.11.26";
  private String time = "10.20.30";
  private String records = "";
  private String duration = "1";
  private int recordCount = 4;
  private IntFunction<String> lists = r -> "+" + r + "\u0014\u0014\u0000";
  private byte[] tail = new byte[0];
  private int cutBytes;

  private EdfFile(int sampleBytes) {
    this.sampleBytes = sampleBytes;
  }

  public static EdfFile edf() {
    return new EdfFile(2);
  }

  public static EdfFile bdf() {
    return new EdfFile(3);
  }

  public EdfFile reserved(String value) {
    reserved = value;
    return this;
  }

  public EdfFile date(String value) {
    date = value;
    return this;
  }

  public EdfFile records(String declared, int there) {
    records = declared;
    recordCount = there;
    return this;
  }

  public EdfFile duration(String value) {
    duration = value;
    return this;
  }

  public EdfFile signal(String label, String unit, int samplesPerRecord) {
    Signal signal = new Signal();
    signal.label = label;
    signal.unit = unit;
    signal.samples = samplesPerRecord;
    signals.add(signal);
    return this;
  }

  /** Changes the range of the last signal. */
  public EdfFile range(String low, String high, String digitalLow, String digitalHigh) {
    Signal last = signals.get(signals.size() - 1);
    last.physicalLow = low;
    last.physicalHigh = high;
    last.digitalLow = digitalLow;
    last.digitalHigh = digitalHigh;
    return this;
  }

  /** Adds an annotation signal; the lists of a record are given as written, nulls included. */
  public EdfFile annotations(IntFunction<String> listsOfRecord) {
    return annotations(listsOfRecord, 60);
  }

  /** The same with a number of samples for the lists of a record. */
  public EdfFile annotations(IntFunction<String> listsOfRecord, int samples) {
    Signal signal = new Signal();
    signal.label = (sampleBytes == 2 ? "EDF" : "BDF") + " Annotations";
    signal.unit = "";
    signal.prefilter = "";
    signal.samples = samples;
    signal.annotates = true;
    signals.add(signal);
    lists = listsOfRecord;
    return this;
  }

  public EdfFile tail(byte[] bytes) {
    tail = bytes;
    return this;
  }

  public EdfFile cut(int bytes) {
    cutBytes = bytes;
    return this;
  }

  /** Number stored for a sample; a simple pattern that differs between channels. */
  public static int stored(int channel, long sample) {
    return (int) ((sample * 37 + channel * 1001L) % 20_000 - 10_000);
  }

  public byte[] bytes() throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    StringBuilder header = new StringBuilder();
    field(header, sampleBytes == 2 ? "0" : "\u00ffBIOSEMI", 8);
    field(header, "X X X X", 80);
    field(header, "Startdate 24-NOV-2026 X X X", 80);
    field(header, date, 8);
    field(header, time, 8);
    field(header, Integer.toString(256 * (signals.size() + 1)), 8);
    field(header, reserved, 44);
    field(header, records.isEmpty() ? Integer.toString(recordCount) : records, 8);
    field(header, duration, 8);
    field(header, Integer.toString(signals.size()), 4);
    signals.forEach(s -> field(header, s.label, 16));
    signals.forEach(s -> field(header, "", 80));
    signals.forEach(s -> field(header, s.unit, 8));
    signals.forEach(s -> field(header, s.physicalLow, 8));
    signals.forEach(s -> field(header, s.physicalHigh, 8));
    signals.forEach(s -> field(header, s.digitalLow, 8));
    signals.forEach(s -> field(header, s.digitalHigh, 8));
    signals.forEach(s -> field(header, s.prefilter, 80));
    signals.forEach(s -> field(header, Integer.toString(s.samples), 8));
    signals.forEach(s -> field(header, "", 32));
    out.write(header.toString().getBytes(StandardCharsets.ISO_8859_1));
    for (int r = 0; r < recordCount; r++) {
      for (int c = 0; c < signals.size(); c++) {
        signal(out, r, c);
      }
    }
    out.write(tail);
    byte[] bytes = out.toByteArray();
    return java.util.Arrays.copyOf(bytes, bytes.length - cutBytes);
  }

  private void signal(ByteArrayOutputStream out, int record, int channel) {
    Signal signal = signals.get(channel);
    if (signal.annotates) {
      byte[] text = lists.apply(record).getBytes(StandardCharsets.ISO_8859_1);
      byte[] bytes = java.util.Arrays.copyOf(text, signal.samples * sampleBytes);
      out.writeBytes(bytes);
      return;
    }
    for (int k = 0; k < signal.samples; k++) {
      int value = stored(channel + 1, (long) record * signal.samples + k);
      for (int b = 0; b < sampleBytes; b++) {
        out.write(value >> (8 * b));
      }
    }
  }

  public Path write(Path folder, String name) throws IOException {
    return Files.write(folder.resolve(name), bytes());
  }

  private static void field(StringBuilder text, String value, int width) {
    text.append(value).append(" ".repeat(width - value.length()));
  }
}
