package org.lonefibre.app.analyse;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.signal.recording.Channel;

/**
 * Which signal of a file is meant: a label, or a number from 1.
 *
 * <ul>
 *   <li>A label goes before a number; case and surrounding space do not matter.
 *   <li>One signal beside that of the stimulus needs no name. Of several, one must be named: none
 *       is guessed.
 * </ul>
 */
final class ChannelChoice {

  private static final int MOST_LISTED = 40;

  private final String file;
  private final List<Channel> channels;

  ChannelChoice(String file, List<Channel> channels) {
    this.file = file;
    this.channels = channels;
  }

  /** The signal that marks stimuli; null if none is named. */
  @Nullable Channel marker(@Nullable String wanted) throws InputFault {
    return wanted == null ? null : named("stimulus channel", "--stimulus-channel", wanted);
  }

  /** The signal to analyse. */
  Channel signal(@Nullable String wanted, @Nullable Channel marker) throws InputFault {
    if (wanted != null) {
      Channel channel = named("channel", "--channel", wanted);
      if (channel.equals(marker)) {
        throw new InputFault(
            file,
            "channel",
            "another signal than that of the stimulus",
            wanted,
            "name two different signals");
      }
      return channel;
    }
    List<Channel> left = channels.stream().filter(c -> !c.equals(marker)).toList();
    if (left.size() == 1) {
      return left.get(0);
    }
    if (left.isEmpty()) {
      throw new InputFault(
          file, "signals", "a signal to analyse", "none", "check which file is meant");
    }
    throw new InputFault(
        file,
        "channel",
        "one signal to be named",
        left.size() + " signals and no name",
        "give --channel (or channel in the study file) as one of " + list(left));
  }

  private Channel named(String place, String option, String wanted) throws InputFault {
    String folded = folded(wanted);
    List<Channel> byLabel =
        channels.stream().filter(c -> folded(c.label()).equals(folded)).toList();
    if (byLabel.size() == 1) {
      return byLabel.get(0);
    }
    if (byLabel.size() > 1) {
      throw new InputFault(
          file,
          place,
          "a label that one signal has",
          wanted + ", the label of " + byLabel.size() + " signals",
          "give " + option + " as a number of " + list(byLabel));
    }
    for (Channel channel : channels) {
      if (Integer.toString(channel.number()).equals(folded)) {
        return channel;
      }
    }
    throw new InputFault(
        file,
        place,
        "the label or number of a signal",
        wanted,
        "give " + option + " as one of " + list(channels));
  }

  private static String list(List<Channel> channels) {
    String listed =
        channels.stream()
            .limit(MOST_LISTED)
            .map(
                c ->
                    String.format(
                        Locale.ROOT,
                        "%d %s (%s, %s Hz)",
                        c.number(),
                        c.label().isBlank() ? "without label" : c.label().strip(),
                        c.unit().isBlank() ? "no unit" : c.unit().strip(),
                        rate(c.timeBase().samplingRateHz())))
            .collect(Collectors.joining("; "));
    return channels.size() <= MOST_LISTED
        ? listed
        : listed + "; and " + (channels.size() - MOST_LISTED) + " more";
  }

  private static String rate(double samplingRateHz) {
    return samplingRateHz == Math.rint(samplingRateHz)
        ? Long.toString((long) samplingRateHz)
        : String.format(Locale.ROOT, "%.3f", samplingRateHz);
  }

  private static String folded(String text) {
    return text.strip().toLowerCase(Locale.ROOT);
  }
}
