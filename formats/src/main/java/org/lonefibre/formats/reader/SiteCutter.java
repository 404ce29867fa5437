package org.lonefibre.formats.reader;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.lonefibre.signal.recording.Annotation;

/**
 * Cuts a recording into sites by its annotations.
 *
 * <ul>
 *   <li>An annotation {@code site NAME} (any case) begins a site, which lasts to the next such
 *       annotation or the end.
 *   <li>An annotation whose first word is {@code stimulus}, {@code stim} or {@code trigger} says
 *       that a stimulus was given.
 * </ul>
 */
public final class SiteCutter {

  /**
   * A site of a recording.
   *
   * @param name its name
   * @param startS start since the start of the recording
   * @param endS end; infinite for the end of the recording
   */
  public record SiteStretch(String name, double startS, double endS) {}

  private SiteCutter() {}

  /** The sites that annotations name, in order of time; empty if they name none. */
  public static List<SiteStretch> listSites(List<Annotation> annotations) {
    List<Annotation> starts =
        annotations.stream().filter(a -> siteName(a.text()).length() > 0).toList();
    List<SiteStretch> sites = new ArrayList<>();
    for (int i = 0; i < starts.size(); i++) {
      double end = i + 1 < starts.size() ? starts.get(i + 1).startS() : Double.POSITIVE_INFINITY;
      double start = Math.max(0, starts.get(i).startS());
      if (end > start) {
        sites.add(new SiteStretch(siteName(starts.get(i).text()), start, end));
      }
    }
    return sites;
  }

  /** Times at which annotations say a stimulus was given. */
  public static List<Double> listStimuliS(List<Annotation> annotations) {
    return annotations.stream()
        .filter(annotation -> isStimulus(annotation.text()))
        .map(Annotation::startS)
        .toList();
  }

  private static String siteName(String text) {
    String trimmed = text.strip();
    return trimmed.toLowerCase(Locale.ROOT).startsWith("site ") ? trimmed.substring(5).strip() : "";
  }

  private static boolean isStimulus(String text) {
    String first = text.strip().toLowerCase(Locale.ROOT).split("[\\s:;,]", 2)[0];
    return first.equals("stimulus") || first.equals("stim") || first.equals("trigger");
  }
}
