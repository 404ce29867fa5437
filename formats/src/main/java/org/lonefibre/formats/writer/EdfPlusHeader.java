package org.lonefibre.formats.writer;

import java.util.List;
import java.util.function.Function;
import org.lonefibre.signal.recording.Channel;

/** The text of the header; the same input gives the same bytes. */
final class EdfPlusHeader {

  private final StringBuilder text = new StringBuilder();
  private final List<Channel> channels;

  private EdfPlusHeader(List<Channel> channels) {
    this.channels = channels;
  }

  static String of(
      List<Channel> channels,
      List<DigitalScale> scales,
      RecordLayout layout,
      int annotationSamples,
      EdfForm form,
      EdfIdentity identity) {
    EdfPlusHeader header = new EdfPlusHeader(channels);
    header.fixed(layout, form, identity);
    header.signals(scales, layout, annotationSamples, form, identity);
    return header.text.toString();
  }

  private void fixed(RecordLayout layout, EdfForm form, EdfIdentity identity) {
    int signals = channels.size() + 1;
    field(form == EdfForm.EDF_PLUS ? "0" : "\u00ffBIOSEMI", 8);
    field(identity.patient(), 80);
    field(identity.recording(), 80);
    field(identity.startDate(), 8);
    field(identity.startTime(), 8);
    number(256L * (signals + 1), 8);
    field(form.kind + (layout.isInterrupted() ? "+D" : "+C"), 44);
    number(layout.records, 8);
    field(layout.duration.toPlainString(), 8);
    number(signals, 4);
  }

  private void signals(
      List<DigitalScale> scales,
      RecordLayout layout,
      int annotationSamples,
      EdfForm form,
      EdfIdentity identity) {
    column(16, Channel::label, form.kind + " Annotations");
    column(80, channel -> identity.transducers().getOrDefault(channel.number(), ""), "");
    scales(scales, scale -> scale.unit, "");
    scales(scales, scale -> scale.physicalLow, "-1");
    scales(scales, scale -> scale.physicalHigh, "1");
    scales(scales, scale -> Integer.toString(scale.digitalLow), Integer.toString(form.lowest));
    scales(scales, scale -> Integer.toString(scale.digitalHigh), Integer.toString(form.highest));
    column(80, Channel::prefilter, "");
    for (int c = 0; c < channels.size(); c++) {
      number(layout.samplesPerRecord(c), 8);
    }
    number(annotationSamples, 8);
    column(32, channel -> "", "");
  }

  private void column(int width, Function<Channel, String> value, String last) {
    for (Channel channel : channels) {
      field(value.apply(channel), width);
    }
    field(last, width);
  }

  private void scales(
      List<DigitalScale> scales, Function<DigitalScale, String> value, String last) {
    for (DigitalScale scale : scales) {
      field(value.apply(scale), 8);
    }
    field(last, 8);
  }

  private void number(long value, int width) {
    String digits = Long.toString(value);
    if (digits.length() > width) {
      throw new IllegalArgumentException(
          "the number " + digits + " does not fit the " + width + " characters of its field");
    }
    field(digits, width);
  }

  /** Text that fits a field; anything but printable ASCII becomes an underscore. */
  private void field(String value, int width) {
    boolean version = text.isEmpty();
    String ascii = version ? value : value.replaceAll("[^\\x20-\\x7e]", "_");
    String cut = ascii.length() > width ? ascii.substring(0, width) : ascii;
    text.append(cut).append(" ".repeat(width - cut.length()));
  }
}
