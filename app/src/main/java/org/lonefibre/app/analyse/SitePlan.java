package org.lonefibre.app.analyse;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.SiteRequest;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.app.declaration.DeclaredRecording;
import org.lonefibre.app.recording.RecordingDoor;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.formats.reader.SiteCutter.SiteStretch;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.Segment;

/**
 * The stretches of an open recording to be analysed.
 *
 * <ul>
 *   <li>Times declared for a stretch go before annotations and the signal.
 *   <li>Sites that either names are taken all, or the one that is declared by name.
 *   <li>Without either the whole recording is one site, named as declared or after its file.
 * </ul>
 */
final class SitePlan {

  private final RecordingDoor door;
  private final String file;
  private final String sha256;

  SitePlan(RecordingDoor door, String file, String sha256) {
    this.door = door;
    this.file = file;
    this.sha256 = sha256;
  }

  List<SiteRequest> listSites(
      Recording recording, DeclaredRecording declared, Activation activation) throws IOException {
    ChannelChoice choice = new ChannelChoice(file, recording.channels());
    Channel marker = choice.marker(declared.stimulusChannel());
    if (marker != null && activation != Activation.STIMULATED) {
      throw new InputFault(
          file,
          "stimulus channel",
          "activation stimulated with a stimulus channel",
          "voluntary",
          "declare the activation, or leave the stimulus channel out");
    }
    Channel channel = choice.signal(declared.channel(), marker);
    List<Double> stimuli =
        activation == Activation.STIMULATED && marker == null
            ? door.listStimulusTimesS(recording)
            : List.of();
    List<SiteRequest> requests = new ArrayList<>();
    for (SiteStretch site : listStretches(recording, channel, declared)) {
      requests.add(
          new SiteRequest(
              file,
              sha256,
              channel,
              marker,
              stimuli,
              site.name(),
              site.startS(),
              site.endS(),
              activation));
    }
    return requests;
  }

  private List<SiteStretch> listStretches(
      Recording recording, Channel channel, DeclaredRecording declared) throws IOException {
    String name = declared.site() == null ? withoutExtension(file) : declared.site();
    if (declared.isCut()) {
      double startS = declared.startS() == null ? 0 : declared.startS();
      double endS = declared.endS() == null ? Double.POSITIVE_INFINITY : declared.endS();
      double lastS = endOf(channel);
      if (startS >= lastS) {
        throw new InputFault(
            file,
            "startS",
            "a start before the end of the recording at " + seconds(lastS),
            seconds(startS),
            "correct the time");
      }
      return List.of(new SiteStretch(name, startS, endS));
    }
    List<SiteStretch> annotated = door.listSites(recording, channel);
    if (annotated.isEmpty()) {
      return List.of(new SiteStretch(name, 0, Double.POSITIVE_INFINITY));
    }
    return declared.site() == null ? annotated : named(annotated, declared.site());
  }

  private List<SiteStretch> named(List<SiteStretch> annotated, @Nullable String name)
      throws InputFault {
    List<SiteStretch> named =
        annotated.stream().filter(s -> s.name().equalsIgnoreCase(name)).toList();
    if (named.isEmpty()) {
      throw new InputFault(
          file,
          "site",
          "one of the sites",
          String.valueOf(name),
          "give one of "
              + annotated.stream().map(SiteStretch::name).collect(Collectors.joining(", ")));
    }
    return named;
  }

  private static double endOf(Channel channel) {
    double endS = 0;
    for (Segment segment : channel.segments()) {
      endS = Math.max(endS, segment.startS() + channel.timeBase().timeS(segment.sampleCount()));
    }
    return endS;
  }

  private static String seconds(double timeS) {
    return String.format(Locale.ROOT, "%.3f s", timeS);
  }

  private static String withoutExtension(String file) {
    int dot = file.lastIndexOf('.');
    return dot > 0 ? file.substring(0, dot) : file;
  }
}
