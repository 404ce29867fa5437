package org.lonefibre.formats.wfdb;

import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lonefibre.formats.reader.SampleRuns;

/** Goes once through all files of a record and gathers the signals of its parts into channels. */
final class SignalSweep {

  private final List<ChannelPieces> channels = new ArrayList<>();
  private final WfdbParts parts;

  private SignalSweep(WfdbParts parts) {
    this.parts = parts;
  }

  /**
   * The channels of a record.
   *
   * <ul>
   *   <li>With a layout they are its signals; a signal of a part belongs to the first of its label
   *       that is still free in this part, and is left out if there is none.
   *   <li>Without, they are the signals of the first part, and signals of the others belong to them
   *       by their place.
   * </ul>
   */
  static List<ChannelPieces> sweep(WfdbParts parts) throws IOException {
    SignalSweep sweep = new SignalSweep(parts);
    sweep.gather();
    return sweep.channels;
  }

  private void gather() throws IOException {
    WfdbHeader first = parts.layout;
    if (first == null && !parts.parts.isEmpty()) {
      first = parts.parts.get(0).header();
    }
    if (first == null) {
      return;
    }
    for (WfdbSignalLine line : first.signals()) {
      channels.add(new ChannelPieces(line));
    }
    try (OpenFiles files = new OpenFiles()) {
      for (WfdbParts.Part part : parts.parts) {
        Map<WfdbSignalLine, ChannelPieces> owners = owners(part.header());
        for (SignalFile file : part.files()) {
          sweep(files, part, file, owners);
        }
      }
    }
  }

  private Map<WfdbSignalLine, ChannelPieces> owners(WfdbHeader header) {
    Map<WfdbSignalLine, ChannelPieces> owners = new HashMap<>();
    Map<String, List<ChannelPieces>> free = new HashMap<>();
    if (parts.layout != null) {
      for (ChannelPieces channel : channels) {
        free.computeIfAbsent(channel.first.label(), label -> new ArrayList<>()).add(channel);
      }
    }
    List<WfdbSignalLine> lines = header.signals();
    for (int i = 0; i < lines.size(); i++) {
      if (parts.layout == null) {
        if (i < channels.size()) {
          owners.put(lines.get(i), channels.get(i));
        }
      } else {
        List<ChannelPieces> same = free.getOrDefault(lines.get(i).label(), List.of());
        if (!same.isEmpty()) {
          owners.put(lines.get(i), same.remove(0));
        }
      }
    }
    return owners;
  }

  private static void sweep(
      OpenFiles files,
      WfdbParts.Part part,
      SignalFile file,
      Map<WfdbSignalLine, ChannelPieces> owners)
      throws IOException {
    long frames = Math.min(part.frames(), file.frames);
    @Nullable SignalScan[] scans = new SignalScan[file.signals.size()];
    for (int s = 0; s < scans.length; s++) {
      WfdbSignalLine line = file.signals.get(s);
      ChannelPieces owner = owners.get(line);
      if (owner == null) {
        continue;
      }
      int each = line.samplesPerFrame();
      long skipped = Math.min(frames, line.skewFrames());
      long start = part.startFrame() * each;
      boolean isSameRate =
          owner.pieces.isEmpty() || owner.pieces.get(0).line().samplesPerFrame() == each;
      SampleRuns.Builder runs = isSameRate ? owner.runs : new SampleRuns.Builder();
      SignalScan scan = new SignalScan(file.format, skipped * each, start, runs);
      scans[s] = scan;
      owner.pieces.add(
          new ChannelPieces.Piece(
              file, s, start, start + (frames - skipped) * each, skipped * each, scan));
    }
    file.scan(
        files,
        frames,
        (signal, values, from, count) -> {
          SignalScan scan = scans[signal];
          if (scan != null) {
            scan.add(values, from, count);
          }
        });
    for (SignalScan scan : scans) {
      if (scan != null) {
        scan.end();
      }
    }
  }
}
