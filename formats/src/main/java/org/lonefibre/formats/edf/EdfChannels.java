package org.lonefibre.formats.edf;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.lonefibre.formats.reader.AmplitudeUnit;
import org.lonefibre.formats.reader.ChannelFindings;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Channel.Calibration;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.RecordingFormatException;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.TimeBase;

/** Makes channels of the ordinary signals of a header, and says which cannot be read. */
final class EdfChannels {

  final List<Channel> channels = new ArrayList<>();
  final Map<Integer, EdfSamples.Scale> scales = new LinkedHashMap<>();
  final List<Finding> findings = new ArrayList<>();
  private final EdfHeader header;
  private final long records;
  private final List<EdfClock.Stretch> stretches;
  private final ReadOptions options;

  EdfChannels(EdfHeader header, long records, List<EdfClock.Stretch> stretches, ReadOptions options)
      throws RecordingFormatException {
    this.header = header;
    this.records = records;
    this.stretches = stretches;
    this.options = options;
    for (EdfHeader.Signal signal : header.signals) {
      if (!signal.isAnnotation()) {
        add(signal);
      }
    }
    findings.addAll(ChannelFindings.list(channels));
  }

  private void add(EdfHeader.Signal signal) throws RecordingFormatException {
    if (signal.samplesPerRecord() == 0) {
      refuse(signal, "has no samples");
      return;
    }
    if (header.recordDurationS.signum() == 0) {
      throw EdfHeader.fault(
          header.file,
          244,
          "duration of a record",
          "more than 0 s, for signals sampled in time",
          header.recordDurationS.toPlainString());
    }
    BigDecimal physicalLow = EdfNumber.find(signal.physicalMinimum());
    BigDecimal physicalHigh = EdfNumber.find(signal.physicalMaximum());
    BigDecimal digitalLow = EdfNumber.find(signal.digitalMinimum());
    BigDecimal digitalHigh = EdfNumber.find(signal.digitalMaximum());
    if (physicalLow == null
        || physicalHigh == null
        || digitalLow == null
        || digitalHigh == null
        || physicalLow.compareTo(physicalHigh) == 0
        || digitalLow.compareTo(digitalHigh) >= 0) {
      refuse(
          signal,
          "cannot be scaled: physical "
              + signal.physicalMinimum()
              + " to "
              + signal.physicalMaximum()
              + ", digital "
              + signal.digitalMinimum()
              + " to "
              + signal.digitalMaximum());
      return;
    }
    if (physicalHigh.compareTo(physicalLow) < 0) {
      findings.add(
          Finding.note(
              FindingCode.INVERTED_RANGE,
              "Channel " + number(signal) + " has a negative gain.",
              Evidence.NONE));
    }
    double low = physicalLow.doubleValue();
    double high = physicalHigh.doubleValue();
    double gain =
        physicalHigh.subtract(physicalLow).doubleValue()
            / digitalHigh.subtract(digitalLow).doubleValue();
    channel(signal, low, high, gain, low - gain * digitalLow.doubleValue());
  }

  private void channel(EdfHeader.Signal signal, double low, double high, double gain, double offset)
      throws RecordingFormatException {
    OptionalDouble unit = AmplitudeUnit.microvolts(signal.unit());
    Double told = options.gainUvPerUnit();
    double factor = told != null ? told : unit.orElse(1);
    int number = number(signal);
    scales.put(number, new EdfSamples.Scale(signal, gain * factor, offset * factor));
    channels.add(
        new Channel(
            number,
            signal.label(),
            signal.unit(),
            told != null || unit.isPresent() ? Calibration.MICROVOLT : Calibration.NONE,
            timeBase(signal),
            records * signal.samplesPerRecord(),
            segments(signal.samplesPerRecord()),
            Math.min(low * factor, high * factor),
            Math.max(low * factor, high * factor),
            Math.abs(gain * factor),
            signal.prefilter()));
  }

  private List<Segment> segments(long samples) {
    return stretches.stream()
        .map(
            stretch ->
                new Segment(
                    stretch.firstRecord() * samples,
                    (stretch.endRecord() - stretch.firstRecord()) * samples,
                    stretch.startTime().doubleValue()))
        .toList();
  }

  /** Samples in a record over its duration, an exact fraction. */
  private TimeBase timeBase(EdfHeader.Signal signal) throws RecordingFormatException {
    BigDecimal duration = header.recordDurationS;
    BigInteger ten = BigInteger.TEN.pow(Math.max(0, duration.scale()));
    BigInteger seconds = duration.multiply(new BigDecimal(ten)).toBigIntegerExact();
    BigInteger samples = BigInteger.valueOf(signal.samplesPerRecord()).multiply(ten);
    BigInteger divisor = samples.gcd(seconds);
    try {
      return new TimeBase(
          samples.divide(divisor).longValueExact(), seconds.divide(divisor).longValueExact());
    } catch (ArithmeticException e) {
      throw EdfHeader.fault(
          header.file,
          244,
          "duration of a record",
          "a duration that gives a usable rate",
          duration.toPlainString());
    }
  }

  private void refuse(EdfHeader.Signal signal, String reason) {
    findings.add(
        Finding.exclusion(
            FindingCode.CHANNEL_REFUSED,
            "Channel " + number(signal) + " " + reason + "; it is left out.",
            Evidence.NONE));
  }

  private static int number(EdfHeader.Signal signal) {
    return signal.index() + 1;
  }
}
