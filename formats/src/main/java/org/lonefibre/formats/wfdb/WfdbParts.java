package org.lonefibre.formats.wfdb;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.TimeBase;

/**
 * The parts of a record, one after the other.
 *
 * <ul>
 *   <li>A part that is named {@code ~} is a gap.
 *   <li>A first part without length is the layout of parts that need not have all its signals.
 *   <li>No part may be a record in several parts, and none may be named twice: a short header could
 *       else claim work without end.
 * </ul>
 */
final class WfdbParts {

  /** Findings of one kind that are spelt out; engineering choice. */
  private static final int MOST_SPELT = 3;

  /**
   * One part.
   *
   * @param startFrame frames before it
   * @param frames its length in time; a file may hold fewer
   */
  record Part(WfdbHeader header, long startFrame, long frames, List<SignalFile> files) {

    Part {
      files = List.copyOf(files);
    }
  }

  final List<Part> parts = new ArrayList<>();
  final List<Finding> findings = new ArrayList<>();
  final @Nullable WfdbHeader layout;
  final @Nullable TimeBase rate;
  private final WfdbFolder folder;
  private int lengths;
  private int rests;

  WfdbParts(WfdbHeader header, WfdbFolder folder) throws IOException {
    this.folder = folder;
    if (header.parts().isEmpty()) {
      this.layout = null;
      this.rate = header.rate();
      parts.add(part(header, 0, header.frames()));
    } else {
      this.layout = layout(header);
      this.rate = several(header);
    }
    more(lengths, FindingCode.RECORD_COUNT, "files whose length differs from the header's");
    more(rests, FindingCode.TRAILING_BYTES, "files with bytes left over");
  }

  private @Nullable WfdbHeader layout(WfdbHeader header) throws IOException {
    WfdbHeader.PartLine first = header.parts().get(0);
    return first.frames() > 0 || first.isGap() ? null : named(first);
  }

  private WfdbHeader named(WfdbHeader.PartLine line) throws IOException {
    String place = line.fields().place("name of the part");
    Path path = folder.file(line.fields().file, place, line.record() + ".hea");
    WfdbHeader part = WfdbHeader.read(path);
    if (!part.parts().isEmpty()) {
      throw line.fields().fault("part", "a record in one part", line.record());
    }
    return part;
  }

  private @Nullable TimeBase several(WfdbHeader header) throws IOException {
    Set<String> names = new HashSet<>();
    TimeBase common = header.rate();
    long frame = 0;
    for (WfdbHeader.PartLine line : header.parts()) {
      if (!line.isGap() && !names.add(line.record())) {
        throw line.fields().fault("part", "a part that is not named before", line.record());
      }
      if (!line.isGap() && line.frames() > 0) {
        WfdbHeader part = named(line);
        common = common == null ? part.rate() : common;
        if (part.rate() != null && !Objects.equals(part.rate(), common)) {
          throw line.fields()
              .fault("part", "parts of one sampling rate", line.record() + " at another rate");
        }
        parts.add(part(part, frame, line.frames()));
      }
      frame += line.frames();
      if (frame > WfdbHeader.MOST_FRAMES) {
        throw line.fields().fault("length of the part", "a length that can be", line.record());
      }
    }
    if (header.frames() > 0 && header.frames() != frame) {
      findings.add(
          Finding.caution(
              FindingCode.HEADER_CONTRADICTION,
              "The header declares "
                  + header.frames()
                  + " samples for each signal, its parts add up to "
                  + frame
                  + "; the parts are used.",
              Evidence.NONE));
    }
    return common;
  }

  private Part part(WfdbHeader header, long startFrame, long declared) throws IOException {
    List<SignalFile> files = files(header);
    long longest = files.stream().mapToLong(file -> file.frames).max().orElse(0);
    long frames = declared > 0 ? declared : longest;
    for (SignalFile file : files) {
      String name = String.valueOf(file.path.getFileName());
      long used = Math.min(frames, file.frames);
      if (declared == 0 || file.frames != declared) {
        note(
            lengths++,
            FindingCode.RECORD_COUNT,
            (declared == 0
                    ? "The header gives no length, so it is inferred: "
                    : "The header declares " + declared + " samples for each signal, but ")
                + name
                + " holds "
                + file.frames
                + "; "
                + used
                + " are used.");
      }
      long rest = file.bytesAfter(used);
      if (rest > 0 && used == file.frames) {
        note(
            rests++,
            FindingCode.TRAILING_BYTES,
            rest + " bytes after the last whole sample of " + name + " are left out.");
      }
    }
    return new Part(header, startFrame, frames, files);
  }

  private void note(int before, FindingCode code, String text) {
    if (before < MOST_SPELT) {
      findings.add(Finding.caution(code, text, Evidence.NONE));
    }
  }

  private void more(int count, FindingCode code, String what) {
    if (count > MOST_SPELT) {
      findings.add(
          Finding.caution(
              code, "There are " + (count - MOST_SPELT) + " more " + what + ".", Evidence.NONE));
    }
  }

  /** The files of a part; signals that share one stand together in the header. */
  private List<SignalFile> files(WfdbHeader header) throws IOException {
    List<SignalFile> files = new ArrayList<>();
    Set<String> names = new HashSet<>();
    List<WfdbSignalLine> signals = header.signals();
    int from = 0;
    while (from < signals.size()) {
      WfdbSignalLine first = signals.get(from);
      int to = from + 1;
      while (to < signals.size() && signals.get(to).file().equals(first.file())) {
        to++;
      }
      WfdbFormat format = first.format();
      if (format != null) {
        if (!names.add(first.file())) {
          throw first
              .fields()
              .fault("file", "signals of one file one after the other", first.file());
        }
        for (WfdbSignalLine line : signals.subList(from, to)) {
          if (line.format() != format || line.byteOffset() != first.byteOffset()) {
            throw line.fields()
                .fault("format", "one format and offset for all signals of a file", line.file());
          }
        }
        Path path = folder.file(header.file(), first.fields().place("file"), first.file());
        files.add(new SignalFile(path, format, signals.subList(from, to)));
      }
      from = to;
    }
    return files;
  }
}
