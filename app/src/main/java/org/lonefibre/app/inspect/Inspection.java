package org.lonefibre.app.inspect;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Producer;
import org.lonefibre.analysis.study.Refusal;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Finding;

/**
 * What was read from files, as {@code inspection.json} says it.
 *
 * @param schema {@link #SCHEMA}
 * @param producedBy the program
 * @param files files that were read, in the order given
 * @param refused files that were not, each with its reason
 */
public record Inspection(
    String schema, Producer producedBy, List<File> files, List<Refusal> refused) {

  /** Name of the document. */
  public static final String SCHEMA = "lonefibre-inspection-1";

  /** Copies its lists. */
  public Inspection {
    files = List.copyOf(files);
    refused = List.copyOf(refused);
  }

  /**
   * One file.
   *
   * @param file its name
   * @param sha256 hash of its bytes
   * @param sizeBytes its length
   * @param format as it was read, for example {@code EDF+D}
   * @param start local date and time of the start, ISO 8601; null if the file tells none
   * @param durationS from the start to the end of the last channel, gaps included
   * @param channels signals in the order of the file
   * @param annotations all of them, in order of time
   * @param stimulusAnnotations how many of them say that a stimulus was given
   * @param sites the stretches that would be analysed
   * @param findings what was noticed while reading
   */
  public record File(
      String file,
      String sha256,
      long sizeBytes,
      String format,
      @Nullable String start,
      double durationS,
      List<Channel> channels,
      List<Annotation> annotations,
      int stimulusAnnotations,
      List<Site> sites,
      List<Finding> findings) {

    /** Copies its lists. */
    public File {
      channels = List.copyOf(channels);
      annotations = List.copyOf(annotations);
      sites = List.copyOf(sites);
      findings = List.copyOf(findings);
    }
  }

  /**
   * One signal.
   *
   * @param number its number, as {@code --channel} takes it
   * @param label as written; hostile text, escaped wherever it is shown
   * @param unit as written, empty if none
   * @param calibration {@code microvolt}, or {@code none} if amplitudes mean nothing
   * @param samplingRateHz rate, rounded to a double
   * @param exactRate rate as an exact fraction
   * @param samples samples stored, gaps left out
   * @param durationS time they last, gaps left out
   * @param amplitude step, rails and extremes
   * @param prefilter what the file says it was filtered with
   * @param segments continuous stretches
   * @param gaps what lies between them
   * @param findings what was noticed in its samples
   */
  public record Channel(
      int number,
      String label,
      String unit,
      String calibration,
      double samplingRateHz,
      ExactRate exactRate,
      long samples,
      double durationS,
      Amplitude amplitude,
      String prefilter,
      List<Stretch> segments,
      List<Stretch> gaps,
      List<Finding> findings) {

    /** Copies its lists. */
    public Channel {
      segments = List.copyOf(segments);
      gaps = List.copyOf(gaps);
      findings = List.copyOf(findings);
    }
  }

  /**
   * A rate as a fraction in lowest terms.
   *
   * @param samples samples in {@code seconds}
   * @param seconds seconds
   */
  public record ExactRate(long samples, long seconds) {}

  /**
   * Amplitudes of one signal, in the unit named beside them; null where unknown.
   *
   * @param unit {@code uV}, or the unit as written if the signal is not calibrated
   * @param step one step of the converter
   * @param lowRail lowest value it could store
   * @param highRail highest value it could store
   * @param lowest lowest sample
   * @param highest highest sample
   * @param samplesAtRails samples at either rail
   */
  public record Amplitude(
      String unit,
      @Nullable Double step,
      @Nullable Double lowRail,
      @Nullable Double highRail,
      @Nullable Double lowest,
      @Nullable Double highest,
      @Nullable Long samplesAtRails) {}

  /**
   * A stretch of time since the start of the recording.
   *
   * @param startS start
   * @param endS end
   */
  public record Stretch(double startS, double endS) {}

  /**
   * A stretch that would be analysed as one site.
   *
   * @param name its name
   * @param startS start
   * @param endS end
   * @param origin {@code annotation}, {@code signal}, or {@code whole} if nothing divides the
   *     recording
   */
  public record Site(String name, double startS, double endS, String origin) {}
}
