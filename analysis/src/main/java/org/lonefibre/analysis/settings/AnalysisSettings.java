package org.lonefibre.analysis.settings;

import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.RecordComponent;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.conditioning.ConditioningSettings;
import org.lonefibre.analysis.discharge.DischargeSettings;
import org.lonefibre.analysis.grading.GradingSettings;
import org.lonefibre.analysis.jitter.JitterSettings;
import org.lonefibre.analysis.potential.PotentialSettings;
import org.lonefibre.analysis.study.SettingsStamp;

/**
 * Every setting of the chain.
 *
 * @param conditioning filters
 * @param discharge finding potentials and units
 * @param potential placing potentials
 * @param grading one fibre or more
 * @param jitter measures
 * @param stimulation stimulated recordings
 */
public record AnalysisSettings(
    ConditioningSettings conditioning,
    DischargeSettings discharge,
    PotentialSettings potential,
    GradingSettings grading,
    JitterSettings jitter,
    StimulationSettings stimulation) {

  /** Version of the set of settings; raised when a default changes. */
  public static final String VERSION = "1";

  private static final Map<String, String> SOURCES =
      Map.ofEntries(
          Map.entry(
              "conditioning.highPassHz",
              "single-fibre 500 Hz, concentric 1,000 Hz (a national guideline; status V)"),
          Map.entry("conditioning.lowPassHz", "10 kHz (a national guideline; status V)"),
          Map.entry(
              "grading.smallestAmplitudeUv",
              "single-fibre 200 uV, concentric 50 uV (a national guideline, workshop material; V)"),
          Map.entry("grading.longestRiseUs", "300 us (a national guideline; status V)"),
          Map.entry(
              "jitter.fewDifferences",
              "Ekstedt, Nilsson, Stalberg 1974 preferred 50 (V); guideline 2019 (from memory)"),
          Map.entry(
              "jitter.sortedRatio", "from memory: Stalberg and Trontelj; AAEM minimonograph 25"),
          Map.entry("jitter.trendRatio", "computed"),
          Map.entry("jitter.ratioDifferences", "computed"),
          Map.entry("jitter.lowJitterUs", "review article 2019 (status V)"),
          Map.entry("jitter.longIntervalUs", "textbook, from memory"),
          Map.entry("jitter.shortIntervalUs", "practice of the guideline era, from memory"),
          Map.entry("jitter.highBlockingPercent", "textbook habit, from memory"),
          Map.entry("stimulation.droppedStimuli", "common practice, no source"));

  /** The settings for a needle key; null or unknown needles get those of concentric needles. */
  public static AnalysisSettings defaultsFor(@Nullable String needle) {
    boolean singleFibre = "single-fibre".equals(needle);
    return new AnalysisSettings(
        singleFibre ? ConditioningSettings.singleFibre() : ConditioningSettings.concentric(),
        DischargeSettings.defaults(),
        PotentialSettings.defaults(),
        singleFibre ? GradingSettings.singleFibre() : GradingSettings.concentric(),
        JitterSettings.defaults(),
        StimulationSettings.defaults());
  }

  /** The same with other filters. */
  public AnalysisSettings withConditioning(ConditioningSettings value) {
    return new AnalysisSettings(value, discharge, potential, grading, jitter, stimulation);
  }

  /** The same with other settings for discharges. */
  public AnalysisSettings withDischarge(DischargeSettings value) {
    return new AnalysisSettings(conditioning, value, potential, grading, jitter, stimulation);
  }

  /** The same with other settings for potentials. */
  public AnalysisSettings withPotential(PotentialSettings value) {
    return new AnalysisSettings(conditioning, discharge, value, grading, jitter, stimulation);
  }

  /** The same with other rules of acceptance. */
  public AnalysisSettings withGrading(GradingSettings value) {
    return new AnalysisSettings(conditioning, discharge, potential, value, jitter, stimulation);
  }

  /** The same with other settings for the measures. */
  public AnalysisSettings withJitter(JitterSettings value) {
    return new AnalysisSettings(conditioning, discharge, potential, grading, value, stimulation);
  }

  /** The same with other settings for stimulated recordings. */
  public AnalysisSettings withStimulation(StimulationSettings value) {
    return new AnalysisSettings(conditioning, discharge, potential, grading, jitter, value);
  }

  /** Every setting with its source, in a fixed order. */
  public List<SettingsStamp.Entry> listEntries() {
    List<SettingsStamp.Entry> entries = new ArrayList<>();
    list("", this, entries);
    return entries;
  }

  /** What results carry: version, hash and entries. */
  public SettingsStamp stamp() {
    StringBuilder canonical = new StringBuilder("version=" + VERSION + "\n");
    List<SettingsStamp.Entry> entries = listEntries();
    for (SettingsStamp.Entry entry : entries) {
      canonical.append(entry.name()).append('=').append(entry.value()).append('\n');
    }
    return new SettingsStamp(VERSION, sha256(canonical.toString()), entries);
  }

  private static void list(String prefix, Object settings, List<SettingsStamp.Entry> entries) {
    for (RecordComponent component : settings.getClass().getRecordComponents()) {
      String name = prefix + component.getName();
      Object value = value(component, settings);
      if (value.getClass().isRecord()) {
        list(name + ".", value, entries);
      } else {
        entries.add(
            new SettingsStamp.Entry(
                name, value.toString(), SOURCES.getOrDefault(name, "engineering choice")));
      }
    }
  }

  private static Object value(RecordComponent component, Object settings) {
    try {
      return component.getAccessor().invoke(settings);
    } catch (IllegalAccessException | InvocationTargetException e) {
      throw new IllegalStateException("a public record could not be read", e);
    }
  }

  private static String sha256(String text) {
    try {
      return HexFormat.of()
          .formatHex(
              MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8)));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }
}
