package org.lonefibre.formats.reader;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Channel.Calibration;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;

/** What any reader says of the channels it found. Thread rule: safe, keeps nothing. */
public final class ChannelFindings {

  private ChannelFindings() {}

  /**
   * Findings on labels and units.
   *
   * <ul>
   *   <li>{@code duplicate-label}: channels that share a label are told apart by their number.
   *   <li>{@code uncalibrated}: channels whose unit is missing or cannot be read. Nothing is
   *       guessed.
   * </ul>
   */
  public static List<Finding> list(List<Channel> channels) {
    List<Finding> findings = new ArrayList<>();
    Map<String, List<Channel>> byLabel =
        channels.stream()
            .collect(
                Collectors.groupingBy(Channel::label, LinkedHashMap::new, Collectors.toList()));
    for (List<Channel> same : byLabel.values()) {
      if (same.size() > 1) {
        findings.add(
            Finding.note(
                FindingCode.DUPLICATE_LABEL,
                "Channels " + numbers(same) + " have the same label; name one by its number.",
                Evidence.NONE));
      }
    }
    List<Channel> uncalibrated =
        channels.stream().filter(c -> c.calibration() == Calibration.NONE).toList();
    if (!uncalibrated.isEmpty()) {
      findings.add(
          Finding.note(
              FindingCode.UNCALIBRATED,
              "The unit of "
                  + (uncalibrated.size() == 1 ? "channel " : "channels ")
                  + numbers(uncalibrated)
                  + " is missing or cannot be read: amplitudes are unknown, times are not"
                  + " affected.",
              Evidence.NONE));
    }
    return findings;
  }

  /** Numbers in rising order, three and more that follow each other as a range. */
  private static String numbers(List<Channel> channels) {
    List<String> said = new ArrayList<>();
    int from = 0;
    while (from < channels.size()) {
      int to = from;
      while (to + 1 < channels.size()
          && channels.get(to + 1).number() == channels.get(to).number() + 1) {
        to++;
      }
      if (to - from < 2) {
        to = from;
      }
      String first = Integer.toString(channels.get(from).number());
      said.add(to == from ? first : first + " to " + channels.get(to).number());
      from = to + 1;
    }
    return String.join(", ", said);
  }
}
