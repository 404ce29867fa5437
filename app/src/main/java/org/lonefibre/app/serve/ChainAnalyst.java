package org.lonefibre.app.serve;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.SiteRevision;
import org.lonefibre.analysis.reference.LaboratoryLimits;
import org.lonefibre.analysis.reference.LimitCatalogue;
import org.lonefibre.analysis.reference.LimitSettings;
import org.lonefibre.analysis.reference.StudyDeclaration;
import org.lonefibre.analysis.reference.StudyJudge;
import org.lonefibre.analysis.study.Decision;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.Producer;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.Refusal;
import org.lonefibre.analysis.study.SettingsStamp;
import org.lonefibre.analysis.study.Study;
import org.lonefibre.analysis.study.StudySummary;
import org.lonefibre.analysis.study.Subject;
import org.lonefibre.app.analyse.ExaminationAnalyser;
import org.lonefibre.app.analyse.RemeasuredSite;
import org.lonefibre.app.declaration.DeclaredExamination;
import org.lonefibre.app.declaration.DeclaredRecording;
import org.lonefibre.app.declaration.DeclaredStudy;
import org.lonefibre.app.declaration.SettingsChanges;
import org.lonefibre.app.declaration.SettingsInForce;
import org.lonefibre.app.demo.DemoFiles;
import org.lonefibre.app.recording.RecordingDoor;
import org.lonefibre.workbench.declaration.Analyst;
import org.lonefibre.workbench.declaration.Declaration;
import org.lonefibre.workbench.declaration.Part;
import org.lonefibre.workbench.declaration.Source;

/**
 * The chain of the {@code analyse} command, as the workbench sees it.
 *
 * <p>Recordings are taken two at a time, so that the work can be watched and cancelled between
 * them. Thread rule: safe.
 */
public final class ChainAnalyst implements Analyst {

  private static final int AT_ONCE = 2;

  private final Producer producer;
  private final Map<String, SettingsInForce> settings = new ConcurrentHashMap<>();
  private final Laboratory laboratory;
  private final Map<Held, LimitCatalogue> catalogues = new ConcurrentHashMap<>();

  private record Held(LimitSettings settings, LaboratoryLimits laboratory) {}

  /** What the laboratory decided about limits, as it stands when asked. */
  @FunctionalInterface
  public interface Laboratory {

    /** Its own sets, confirmations and choices. */
    LaboratoryLimits limits() throws IOException;
  }

  /**
   * @param producer the program, as documents name it
   * @param laboratory what the laboratory decided about limits
   */
  public ChainAnalyst(Producer producer, Laboratory laboratory) {
    this.producer = producer;
    this.laboratory = laboratory;
  }

  @Override
  public Producer producer() {
    return producer;
  }

  @Override
  public String gradingVersion(String needle) throws IOException {
    return SettingsInForce.gradingVersion(producer, needle);
  }

  @Override
  public Examination analyse(
      Declaration declaration, Function<Source, Path> files, Watch watch, @Nullable Known known)
      throws IOException {
    String createdAt = Instant.now().truncatedTo(ChronoUnit.SECONDS).toString();
    int of =
        declaration.parts().stream().mapToInt(part -> part.sources().size()).sum()
            - (known == null
                ? 0
                : known.declaration().parts().stream().mapToInt(p -> p.sources().size()).sum());
    int done = 0;
    List<Study> studies = new ArrayList<>();
    List<Refusal> refused = new ArrayList<>();
    Map<String, SettingsInForce> byNeedle = new LinkedHashMap<>();
    if (known != null) {
      refused.addAll(known.result().refused());
    }
    for (int p = 0; p < declaration.parts().size(); p++) {
      Part part = declaration.parts().get(p);
      int measured = measured(known, p);
      byNeedle.put(
          part.needle() == null ? "not given" : part.needle(),
          SettingsInForce.of(part.needle(), SettingsChanges.NONE));
      List<RecordingResult> sites = new ArrayList<>();
      if (known != null && measured > 0) {
        sites.addAll(known.result().studies().get(p).recordings());
      }
      for (int first = measured; first < part.sources().size(); first += AT_ONCE) {
        if (watch.isCancelled()) {
          throw new CancellationException("cancelled");
        }
        List<Source> few =
            part.sources().subList(first, Math.min(part.sources().size(), first + AT_ONCE));
        watch.step("analysing " + few.get(0).fileName(), done, of);
        Map<String, String> names = new HashMap<>();
        Examination result = some(declaration, part, few, files, names, createdAt);
        for (RecordingResult site : result.studies().get(0).recordings()) {
          sites.add(renamed(site, few, names));
        }
        for (Refusal refusal : result.refused()) {
          refused.add(
              new Refusal(
                  names.getOrDefault(refusal.file(), refusal.file()),
                  refusal.place(),
                  refusal.reason()));
        }
        done += few.size();
      }
      studies.add(
          new Study(
              part.muscle(),
              part.side(),
              part.activationOrDefault(),
              part.needle(),
              sites,
              summary(
                  declaration,
                  part,
                  byNeedle.get(part.needle() == null ? "not given" : part.needle()),
                  sites)));
    }
    watch.step("judging the study", done, of);
    requireSame(known, byNeedle);
    return new Examination(
        Examination.SCHEMA,
        producer,
        createdAt,
        SettingsInForce.stamp(byNeedle),
        new Subject(declaration.subjectCode(), declaration.ageYears()),
        declaration.visit(),
        studies,
        refused,
        known == null ? null : known.result().chain());
  }

  /** How many recordings of a part are measured already. */
  private static int measured(@Nullable Known known, int part) {
    return known == null || part >= known.declaration().parts().size()
        ? 0
        : known.declaration().parts().get(part).sources().size();
  }

  /** What is added must be measured as what is there. */
  private static void requireSame(@Nullable Known known, Map<String, SettingsInForce> byNeedle)
      throws IOException {
    if (known == null) {
      return;
    }
    Map<String, SettingsInForce> before = new LinkedHashMap<>();
    for (Part part : known.declaration().parts()) {
      String needle = part.needle() == null ? "not given" : part.needle();
      before.put(needle, byNeedle.get(needle));
    }
    if (!before.isEmpty()
        && !SettingsInForce.stamp(before).hash().equals(known.result().settings().hash())) {
      throw new IllegalArgumentException(
          "the study was measured with other settings than this program has; begin a new study for"
              + " more recordings");
    }
  }

  private Examination some(
      Declaration declaration,
      Part part,
      List<Source> few,
      Function<Source, Path> files,
      Map<String, String> names,
      String createdAt)
      throws IOException {
    List<DeclaredRecording> recordings = new ArrayList<>();
    for (Source source : few) {
      Path path = files.apply(source);
      names.put(String.valueOf(path.getFileName()), source.fileName());
      recordings.add(declared(source, path));
    }
    return new ExaminationAnalyser(
            RecordingDoor.plain(), SettingsChanges.NONE, producer, laboratory.limits())
        .analyse(
            new DeclaredExamination(
                new Subject(declaration.subjectCode(), declaration.ageYears()),
                declaration.visit(),
                List.of(
                    new DeclaredStudy(
                        part.muscle(),
                        part.side(),
                        part.needle(),
                        part.activation(),
                        part.limits(),
                        recordings)),
                null),
            createdAt)
        .examination();
  }

  private static DeclaredRecording declared(Source source, Path path) {
    return new DeclaredRecording(
        path,
        source.site(),
        source.channel(),
        source.stimulusChannel(),
        source.startS(),
        source.endS());
  }

  /** Files in the store are named by their hash; results name them as they came. */
  private static RecordingResult renamed(
      RecordingResult of, List<Source> few, Map<String, String> names) {
    String name = names.getOrDefault(of.file(), of.file());
    boolean afterFile = few.stream().anyMatch(source -> source.sha256().equals(of.site()));
    return named(of, name, afterFile ? withoutExtension(name) : of.site());
  }

  private static RecordingResult named(RecordingResult of, String file, String site) {
    return new RecordingResult(
        file,
        of.sha256(),
        of.format(),
        site,
        of.startS(),
        of.endS(),
        of.channel(),
        of.samplingRateHz(),
        of.durationS(),
        of.noiseUv(),
        of.conditioning(),
        of.findings(),
        of.motorUnits(),
        of.stimulation());
  }

  private static String withoutExtension(String file) {
    int dot = file.lastIndexOf('.');
    return dot > 0 ? file.substring(0, dot) : file;
  }

  @Override
  public RecordingResult revise(
      Examination automatic, int part, RecordingResult site, List<Decision> decisions)
      throws IOException {
    return new SiteRevision(
            settings(automatic, automatic.studies().get(part).needle()).analysis().jitter())
        .revise(site, decisions);
  }

  @Override
  public RecordingResult remeasure(
      Known known,
      int part,
      RecordingResult site,
      Function<Source, Path> files,
      List<Decision.OfSamples> decisions)
      throws IOException {
    Part of = known.declaration().parts().get(part);
    List<DeclaredRecording> declared = new ArrayList<>();
    for (Source source : of.sources()) {
      if (source.sha256().equals(site.sha256())) {
        declared.add(declared(source, files.apply(source)));
      }
    }
    if (declared.isEmpty()) {
      throw new IllegalArgumentException("the recording of this site is not part of the study");
    }
    RecordingResult result =
        RemeasuredSite.measure(
            declared,
            of.activationOrDefault(),
            settings(known.result(), of.needle()).analysis(),
            site,
            decisions);
    return named(result, site.file(), site.site());
  }

  @Override
  public StudySummary judge(
      Declaration declaration, Examination automatic, int part, List<RecordingResult> sites)
      throws IOException {
    Part of = declaration.parts().get(part);
    return summary(declaration, of, settings(automatic, of.needle()), sites);
  }

  private StudySummary summary(
      Declaration declaration,
      Part part,
      @Nullable SettingsInForce settings,
      List<RecordingResult> sites)
      throws IOException {
    SettingsInForce inForce = java.util.Objects.requireNonNull(settings);
    return new StudyJudge(
            catalogues.computeIfAbsent(
                new Held(inForce.limits(), laboratory.limits()),
                held -> LimitCatalogue.load(held.settings(), held.laboratory())),
            inForce.study())
        .summarise(
            new StudyDeclaration(
                part.muscle(),
                declaration.ageYears(),
                part.needle(),
                part.activationOrDefault(),
                part.activation() == null
                    ? StudyDeclaration.Origin.ASSUMED
                    : StudyDeclaration.Origin.DECLARED,
                part.limits(),
                highPassHz(inForce.analysis().conditioning().highPassHz(), sites),
                declaration.visit().temperatureDegC()),
            sites);
  }

  /** The usual high-pass, or that of a site a person had filtered otherwise. */
  private static double highPassHz(double usualHz, List<RecordingResult> sites) {
    return sites.stream()
        .filter(site -> site.conditioning() != null)
        .mapToDouble(site -> java.util.Objects.requireNonNull(site.conditioning()).highPassHz())
        .filter(siteHz -> siteHz != usualHz)
        .findFirst()
        .orElse(usualHz);
  }

  /** The settings that made a result, from its stamp. */
  private SettingsInForce settings(Examination automatic, @Nullable String needle)
      throws IOException {
    String key = automatic.settings().hash() + "/" + needle;
    SettingsInForce known = settings.get(key);
    if (known == null) {
      known = read(automatic, needle);
      settings.put(key, known);
    }
    return known;
  }

  private static SettingsInForce read(Examination automatic, @Nullable String needle)
      throws IOException {
    String suffix = "[" + (needle == null ? "not given" : needle) + "]";
    SettingsChanges changes = SettingsChanges.NONE;
    Map<String, String> usual = new HashMap<>();
    for (SettingsStamp.Entry entry :
        SettingsInForce.of(needle, SettingsChanges.NONE).listEntries()) {
      usual.put(entry.name(), entry.value());
    }
    for (SettingsStamp.Entry entry : automatic.settings().entries()) {
      String name =
          entry.name().endsWith(suffix)
              ? entry.name().substring(0, entry.name().length() - suffix.length())
              : entry.name();
      String value = usual.get(name);
      if (value != null && !value.equals(entry.value())) {
        changes = changes.with(name, entry.value(), entry.source());
      }
    }
    return SettingsInForce.of(needle, changes);
  }

  @Override
  public Demo demo(Path folder) throws IOException {
    return DemoFiles.write(folder);
  }
}
