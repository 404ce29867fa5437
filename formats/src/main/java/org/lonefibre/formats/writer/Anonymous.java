package org.lonefibre.formats.writer;

import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lonefibre.formats.reader.AmplitudeUnit;
import org.lonefibre.formats.reader.SiteCutter;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Recording;

/**
 * A recording without anything that identifies a person, a laboratory or a day.
 *
 * <ul>
 *   <li>Patient, recording and transducers: all unknown. The start is moved by whole days.
 *   <li>Annotations: sites are numbered anew, stimuli keep the word alone, all other text is
 *       dropped and listed.
 *   <li>Labels keep words that every laboratory uses and numbers of up to two digits; any other
 *       label becomes {@code signal N}. A prefilter keeps its corners; a unit that is none of
 *       voltage goes.
 *   <li>Samples stay as they are.
 *   <li>Thread rule: immutable.
 * </ul>
 */
public final class Anonymous {

  /** Words of labels that say what a signal is, not whose; common practice, no source. */
  private static final Set<String> PLAIN_WORDS =
      Set.of(
          "emg",
          "sfemg",
          "cnemg",
          "eeg",
          "ecg",
          "ekg",
          "eog",
          "needle",
          "surface",
          "channel",
          "ch",
          "signal",
          "stim",
          "stimulus",
          "trigger",
          "trig",
          "marker",
          "status",
          "ref",
          "left",
          "right",
          "l",
          "r",
          "a",
          "b");

  private static final Pattern CORNER =
      Pattern.compile(
          "\\b(HP|LP|N):\\s*([0-9]+(?:\\.[0-9]+)?)\\s*(k?Hz)", Pattern.CASE_INSENSITIVE);

  private final Recording recording;
  private final EdfIdentity identity;
  private final List<Annotation> dropped;
  private final Map<String, String> renamedSites;

  private Anonymous(
      Recording recording,
      EdfIdentity identity,
      List<Annotation> dropped,
      Map<String, String> renamedSites) {
    this.recording = recording;
    this.identity = identity;
    this.dropped = List.copyOf(dropped);
    this.renamedSites = Map.copyOf(renamedSites);
  }

  /**
   * Cleans a recording.
   *
   * @param shiftDays days by which the start is moved; the same number for all recordings of a
   *     person keeps the time between them
   * @throws IllegalArgumentException if the start would leave the years 1985 to 2084
   */
  public static Anonymous of(Recording recording, long shiftDays) {
    LocalDateTime start = recording.findStart().orElse(null);
    LocalDateTime shifted = start == null ? null : start.plusDays(shiftDays);
    List<Annotation> kept = new ArrayList<>();
    List<Annotation> dropped = new ArrayList<>();
    Map<String, String> sites = new LinkedHashMap<>();
    for (Annotation annotation : recording.annotations()) {
      String text = harmless(annotation, sites);
      if (text == null) {
        dropped.add(annotation);
      } else {
        kept.add(new Annotation(annotation.startS(), annotation.durationS(), text));
      }
    }
    List<Channel> channels = recording.channels().stream().map(Anonymous::cleaned).toList();
    return new Anonymous(
        new RecordingView(recording, shifted, channels, kept),
        EdfIdentity.of("", shifted),
        dropped,
        sites);
  }

  private static @Nullable String harmless(Annotation annotation, Map<String, String> sites) {
    List<Annotation> alone = List.of(annotation);
    if (!SiteCutter.listStimuliS(alone).isEmpty()) {
      return "stimulus";
    }
    List<SiteCutter.SiteStretch> named = SiteCutter.listSites(alone);
    if (named.isEmpty()) {
      return null;
    }
    return "site "
        + sites.computeIfAbsent(named.get(0).name(), n -> Integer.toString(sites.size() + 1));
  }

  private static Channel cleaned(Channel channel) {
    boolean voltage = AmplitudeUnit.microvolts(channel.unit()).isPresent();
    return new Channel(
        channel.number(),
        isPlain(channel.label()) ? channel.label().strip() : "signal " + channel.number(),
        voltage ? channel.unit().strip() : "",
        channel.calibration(),
        channel.timeBase(),
        channel.sampleCount(),
        channel.segments(),
        channel.lowRailUv(),
        channel.highRailUv(),
        channel.resolutionUv(),
        corners(channel.prefilter()));
  }

  private static boolean isPlain(String label) {
    String[] words = label.strip().toLowerCase(Locale.ROOT).split("[\\s_.,:;()\\[\\]+-]+");
    Set<String> foreign = new HashSet<>(List.of(words));
    foreign.removeIf(word -> word.matches("[0-9]{0,2}"));
    foreign.removeIf(word -> PLAIN_WORDS.contains(word.replaceAll("[0-9]{1,2}$", "")));
    return foreign.isEmpty() && !label.isBlank();
  }

  private static String corners(String prefilter) {
    Matcher matcher = CORNER.matcher(prefilter);
    return matcher
        .results()
        .map(
            found ->
                found.group(1).toUpperCase(Locale.ROOT) + ":" + found.group(2) + found.group(3))
        .collect(Collectors.joining(" "));
  }

  /** The cleaned recording; reads from the other, which stays open as long. */
  public Recording recording() {
    return recording;
  }

  /** The identity it is written with. */
  public EdfIdentity identity() {
    return identity;
  }

  /** Annotations that were left out. */
  public List<Annotation> dropped() {
    return dropped;
  }

  /** New names of sites by their old ones. */
  public Map<String, String> renamedSites() {
    return renamedSites;
  }
}
