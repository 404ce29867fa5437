package org.lonefibre.formats.wfdb;

import java.io.BufferedInputStream;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.RecordingFormatException;
import org.lonefibre.signal.recording.TimeBase;

/**
 * The annotations beside a header, from the file {@code RECORD.atr} (annot(5)).
 *
 * <ul>
 *   <li>The text of a note is its own; any other annotation has its mnemonic before it.
 *   <li>The resolution of times and the definitions of types that notes at time 0 give are used and
 *       not listed.
 *   <li>A file that cannot be read to its end gives what came before; the signals are kept.
 * </ul>
 */
final class WfdbAnnotations {

  private static final int SKIP = 59;
  private static final int NUM = 60;
  private static final int SUB = 61;
  private static final int CHN = 62;
  private static final int AUX = 63;
  private static final int NOTE = 22;

  /** More annotations than this are no use to anyone; engineering choice. */
  private static final int MOST_ANNOTATIONS = 1_000_000;

  private static final String RESOLUTION = "## time resolution: ";
  private static final String DEFINITIONS = "## annotation type definitions";
  private static final String END_OF_DEFINITIONS = "## end of definitions";

  /** Mnemonics by code (annot(5)); blank where there is none. */
  private static final String MNEMONICS = " NLRaVFJASEj/Q~ | sT*D\"=pB^t+u?![]en@xf()r";

  final List<Finding> findings = new ArrayList<>();
  private final List<Annotation> found = new ArrayList<>();
  private final Map<Integer, String> defined = new HashMap<>();
  private final TimeBase rate;
  private @Nullable TimeBase resolution;
  private boolean isDefining;
  private long leftOut;
  private boolean isLatin;

  /**
   * @param rate frames in a second, which times count unless a note says otherwise
   */
  WfdbAnnotations(TimeBase rate) {
    this.rate = rate;
  }

  /** One annotation as read. */
  private record Event(int type, long time, String text) {}

  List<Annotation> beside(WfdbHeader header, WfdbFolder folder) throws IOException {
    String name = header.record() + ".atr";
    Path path = folder.sibling(header.file(), "line 1, record", name);
    if (!Files.isRegularFile(path)) {
      return List.of();
    }
    try (InputStream in = new BufferedInputStream(Files.newInputStream(path))) {
      read(in);
    } catch (EOFException e) {
      unreadable(name + " ends within an annotation");
    } catch (IOException e) {
      unreadable(name + " cannot be opened");
    }
    if (leftOut > 0) {
      unreadable(
          leftOut
              + " annotations are left out: their times lie before the start, or there are more than "
              + MOST_ANNOTATIONS);
    }
    if (isLatin) {
      findings.add(
          Finding.note(
              FindingCode.TEXT_ENCODING,
              "An annotation is not valid UTF-8; it was read as Latin-1.",
              Evidence.NONE));
    }
    TimeBase used = resolution == null ? rate : resolution;
    if (!found.isEmpty() && used.samplingRateHz() < 1e6) {
      findings.add(
          Finding.note(
              FindingCode.ANNOTATION_RESOLUTION,
              "Times of annotations are written in steps coarser than 1 us; they are never used"
                  + " for jitter.",
              Evidence.NONE));
    }
    found.sort(Comparator.comparingDouble(Annotation::startS));
    return List.copyOf(found);
  }

  private void unreadable(String text) {
    findings.add(
        Finding.caution(
            FindingCode.ANNOTATION_UNREADABLE,
            text + "; the signals are not affected.",
            Evidence.NONE));
  }

  private void read(InputStream in) throws IOException {
    long time = 0;
    int pending = 0;
    String text = "";
    while (true) {
      int word = word(in);
      int type = word >> 10;
      int low = word & 0x3FF;
      if (type == SKIP) {
        // Belongs to the next annotation: the one before is complete.
        flush(pending, time, text);
        pending = 0;
        text = "";
        time += (word(in) << 16) | word(in);
      } else if (type == AUX) {
        byte[] bytes = in.readNBytes(low + low % 2);
        if (bytes.length < low) {
          throw new EOFException();
        }
        text = text(bytes, low);
      } else if (type != NUM && type != SUB && type != CHN) {
        flush(pending, time, text);
        text = "";
        pending = type;
        time += low;
        if (word == 0) {
          return;
        }
      }
    }
  }

  private static int word(InputStream in) throws IOException {
    int low = in.read();
    int high = in.read();
    if (high < 0) {
      throw new EOFException();
    }
    return low | high << 8;
  }

  private String text(byte[] bytes, int length) {
    int end = 0;
    while (end < length && bytes[end] != 0) {
      end++;
    }
    String utf8 = new String(bytes, 0, end, StandardCharsets.UTF_8);
    if (utf8.indexOf('\uFFFD') < 0) {
      return utf8.strip();
    }
    isLatin = true;
    return new String(bytes, 0, end, StandardCharsets.ISO_8859_1).strip();
  }

  private void flush(int type, long time, String text) {
    if (type == 0 || (type == NOTE && time == 0 && isDefinition(text))) {
      return;
    }
    if (time < 0 || found.size() == MOST_ANNOTATIONS) {
      leftOut++;
      return;
    }
    TimeBase used = resolution == null ? rate : resolution;
    found.add(new Annotation(used.timeS(time), null, shown(new Event(type, time, text))));
  }

  private String shown(Event event) {
    String own = defined.get(event.type());
    String mnemonic =
        own != null
            ? own
            : event.type() < MNEMONICS.length()
                ? MNEMONICS.substring(event.type(), event.type() + 1).strip()
                : "";
    String kind = mnemonic.isEmpty() ? "type " + event.type() : mnemonic;
    if (event.text().isEmpty()) {
      return kind;
    }
    return event.type() == NOTE ? event.text() : kind + " " + event.text();
  }

  /** Takes up what a note at time 0 says of the annotations themselves; false if it is none. */
  private boolean isDefinition(String text) {
    if (text.startsWith(RESOLUTION)) {
      try {
        resolution =
            new WfdbFields("", 1).rate("resolution", text.substring(RESOLUTION.length()).strip());
      } catch (RecordingFormatException e) {
        unreadable("The resolution of the annotations, " + e.reason());
      }
      return true;
    }
    if (text.equals(DEFINITIONS) || text.equals(END_OF_DEFINITIONS)) {
      isDefining = text.equals(DEFINITIONS);
      return true;
    }
    if (isDefining) {
      String[] field = text.split("\\s+", 3);
      if (field.length >= 2 && field[0].matches("\\d{1,2}")) {
        defined.put(Integer.parseInt(field[0]), field[1]);
      }
      return true;
    }
    return text.startsWith("##");
  }
}
