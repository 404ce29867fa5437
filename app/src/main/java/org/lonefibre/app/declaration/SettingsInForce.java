package org.lonefibre.app.declaration;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.controls.GradingVersion;
import org.lonefibre.analysis.reference.LimitSettings;
import org.lonefibre.analysis.reference.StudySettings;
import org.lonefibre.analysis.settings.AnalysisSettings;
import org.lonefibre.analysis.study.Producer;
import org.lonefibre.analysis.study.SettingsStamp;
import org.lonefibre.app.terminal.InputFault;

/**
 * All settings that apply to studies with one needle, each with its source: the defaults of the
 * needle, changed by a settings file, changed by options.
 *
 * @param analysis those of the chain
 * @param limits how limits are matched
 * @param study how signals become a study
 * @param changes what a person wanted otherwise
 */
public record SettingsInForce(
    AnalysisSettings analysis, LimitSettings limits, StudySettings study, SettingsChanges changes) {

  private static final Map<String, String> SOURCES =
      Map.of("study.closeCallUs", "comparison of outlier methods 2020");

  /** What lies beside the chain, named as in files. */
  record Judgement(LimitSettings limits, StudySettings study) {}

  /**
   * The settings for a needle.
   *
   * @param needle needle key; null or a needle of the laboratory's own for those of concentric
   *     needles
   * @throws InputFault if the changes leave the ranges of the settings
   */
  public static SettingsInForce of(@Nullable String needle, SettingsChanges changes)
      throws InputFault {
    try {
      Judgement judgement = RecordTree.with(judgementDefaults(), changes.values());
      return new SettingsInForce(
          RecordTree.with(AnalysisSettings.defaultsFor(needle), changes.values()),
          judgement.limits(),
          judgement.study(),
          changes);
    } catch (IllegalArgumentException e) {
      throw new InputFault(
          "settings",
          changes.sources().values().stream().distinct().sorted().collect(Collectors.joining(", ")),
          "values that go together",
          String.valueOf(e.getMessage()),
          "correct the value");
    }
  }

  /** Names of all settings. */
  static List<String> listNames() {
    List<String> names = new ArrayList<>(RecordTree.listNames(AnalysisSettings.defaultsFor(null)));
    names.addAll(RecordTree.listNames(judgementDefaults()));
    return names;
  }

  /** Only checks that values are of the right kind: ranges may depend on one another. */
  static void parse(Map<String, String> values) {
    RecordTree.requireKinds(AnalysisSettings.defaultsFor(null), values);
    RecordTree.requireKinds(judgementDefaults(), values);
  }

  /** Every setting with its value and source, in a fixed order. */
  public List<SettingsStamp.Entry> listEntries() {
    List<SettingsStamp.Entry> entries = new ArrayList<>();
    for (SettingsStamp.Entry entry : analysis.listEntries()) {
      entries.add(entry(entry.name(), RecordTree.text(analysis, entry.name()), entry.source()));
    }
    Judgement judgement = new Judgement(limits, study);
    for (String name : RecordTree.listNames(judgement)) {
      entries.add(
          entry(
              name,
              RecordTree.text(judgement, name),
              SOURCES.getOrDefault(name, "engineering choice")));
    }
    return entries;
  }

  private SettingsStamp.Entry entry(String name, String value, String source) {
    String changed = changes.sources().get(name);
    return new SettingsStamp.Entry(name, value, changed == null ? source : changed);
  }

  /**
   * What the document carries. Where studies with several needles differ in a setting, it is listed
   * once for each needle, with the needle in brackets.
   */
  public static SettingsStamp stamp(Map<String, SettingsInForce> byNeedle) {
    Map<String, List<SettingsStamp.Entry>> entriesByNeedle = new LinkedHashMap<>();
    byNeedle.forEach((needle, settings) -> entriesByNeedle.put(needle, settings.listEntries()));
    List<SettingsStamp.Entry> merged = new ArrayList<>();
    int count = entriesByNeedle.values().iterator().next().size();
    for (int i = 0; i < count; i++) {
      int row = i;
      List<SettingsStamp.Entry> same =
          entriesByNeedle.values().stream().map(entries -> entries.get(row)).distinct().toList();
      if (same.size() == 1) {
        merged.add(same.get(0));
      } else {
        entriesByNeedle.forEach(
            (needle, entries) -> {
              SettingsStamp.Entry entry = entries.get(row);
              merged.add(
                  new SettingsStamp.Entry(
                      entry.name() + "[" + needle + "]", entry.value(), entry.source()));
            });
      }
    }
    return new SettingsStamp(AnalysisSettings.VERSION, hash(merged), merged);
  }

  /**
   * The version of the grading of a needle with the settings as they come.
   *
   * @throws InputFault never, as long as the defaults go together
   */
  public static String gradingVersion(Producer producer, String needle) throws InputFault {
    return GradingVersion.of(
        producer, stamp(Map.of(needle, of(needle, SettingsChanges.NONE))), needle);
  }

  private static String hash(List<SettingsStamp.Entry> entries) {
    StringBuilder canonical = new StringBuilder("version=" + AnalysisSettings.VERSION + "\n");
    for (SettingsStamp.Entry entry : entries) {
      canonical.append(entry.name()).append('=').append(entry.value()).append('\n');
    }
    try {
      return HexFormat.of()
          .formatHex(
              MessageDigest.getInstance("SHA-256")
                  .digest(canonical.toString().getBytes(StandardCharsets.UTF_8)));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }

  private static Judgement judgementDefaults() {
    return new Judgement(LimitSettings.defaults(), StudySettings.defaults());
  }
}
