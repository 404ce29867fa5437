package org.lonefibre.workbench.importing;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.Side;
import org.lonefibre.report.document.AnalysisJson;
import org.lonefibre.store.recordings.KeptRecording;
import org.lonefibre.store.studies.KeptStudy;
import org.lonefibre.workbench.declaration.Analyst;
import org.lonefibre.workbench.declaration.Declaration;
import org.lonefibre.workbench.declaration.Part;
import org.lonefibre.workbench.declaration.Source;
import org.lonefibre.workbench.server.Json;
import org.lonefibre.workbench.server.LocalServer;
import org.lonefibre.workbench.server.Refusal;
import org.lonefibre.workbench.site.SiteRoutes;
import org.lonefibre.workbench.study.Desk;
import org.lonefibre.workbench.study.OpenStudy;
import org.lonefibre.workbench.study.Person;
import org.lonefibre.workbench.work.Job;
import org.lonefibre.workbench.work.Jobs;

/** Recordings come in: kept, previewed, mapped to sites, analysed in work that can be watched. */
public final class ImportRoutes {

  private static final long MOST_BYTES = 4L << 30;

  private final Desk desk;
  private final Jobs jobs;
  private final SiteRoutes sites;

  /** Routes into the store of a desk; what was imported is made ready to be looked at. */
  public ImportRoutes(Desk desk, Jobs jobs, SiteRoutes sites) {
    this.desk = desk;
    this.jobs = jobs;
    this.sites = sites;
  }

  /** Adds them. */
  public void add(RoutesConfig routes) {
    routes.post("/api/recordings", this::receive);
    routes.post("/api/studies/{study}/imports", this::begin);
    routes.post("/api/demo", this::demo);
  }

  private void receive(Context context) throws IOException {
    String header = context.header("Lonefibre-File-Name");
    String name = header == null ? "recording" : URLDecoder.decode(header, StandardCharsets.UTF_8);
    name = name.substring(Math.max(name.lastIndexOf('/'), name.lastIndexOf('\\')) + 1);
    if (name.isBlank() || name.length() > 200) {
      throw new Refusal(400, "The name of the file must have 1 to 200 characters.");
    }
    KeptRecording kept =
        desk.store().keepRecording(context.req().getInputStream(), name, MOST_BYTES);
    LocalServer.json(context, Preview.of(desk.store(), kept, name));
  }

  /** Recordings to be analysed as one part of a study. */
  record Import(
      @Nullable String muscle,
      @Nullable Side side,
      @Nullable String needle,
      @Nullable Activation activation,
      @Nullable String limits,
      List<Source> sources) {}

  private void begin(Context context) throws IOException {
    String id = context.pathParam("study");
    Import wanted = Json.read(context.body(), Import.class);
    String person = Person.of(context);
    Declaration before = desk.open(id).declaration();
    if (wanted.sources().isEmpty()) {
      throw new Refusal(400, "There is no recording to import.");
    }
    Part part =
        new Part(
            wanted.muscle(),
            wanted.side(),
            wanted.needle(),
            wanted.activation(),
            wanted.limits(),
            wanted.sources());
    Map<String, KeptRecording> kept = new LinkedHashMap<>();
    for (Source source : wanted.sources()) {
      kept.put(
          source.sha256(),
          desk.store().studies().findRecording(source.sha256()).orElseGet(() -> unlisted(source)));
    }
    Declaration declaration =
        new Declaration(
            before.subjectCode(), before.ageYears(), before.visit(), joined(before.parts(), part));
    jobs.run(
        context,
        job -> {
          analyse(id, declaration, wanted.sources(), person, job);
          jobs.later(() -> sites.prepare(id));
          return id;
        });
  }

  /** The parts with one more, or with its recordings behind those of the part it belongs to. */
  private static List<Part> joined(List<Part> parts, Part more) {
    List<Part> all = new ArrayList<>(parts);
    for (int p = 0; p < all.size(); p++) {
      if (all.get(p).isOfOne(more)) {
        all.set(p, all.get(p).withMore(more.sources()));
        return all;
      }
    }
    all.add(more);
    return all;
  }

  /** A recording received but in no study yet: its file is there under its hash. */
  private KeptRecording unlisted(Source source) {
    return desk.store()
        .findKept(source.sha256(), source.fileName())
        .orElseThrow(() -> new Refusal(404, "A recording is not there any more: add it again."));
  }

  private void analyse(
      String id, Declaration declaration, List<Source> fresh, String person, Analyst.Watch watch)
      throws IOException {
    OpenStudy open = desk.open(id);
    Examination automatic = open.automatic();
    Analyst.Known known =
        automatic == null ? null : new Analyst.Known(open.declaration(), automatic);
    keep(
        id,
        declaration,
        fresh,
        desk.analyst().analyse(declaration, this::path, watch, known),
        person);
  }

  private void keep(
      String id, Declaration declaration, List<Source> fresh, Examination result, String person)
      throws IOException {
    Map<KeptRecording, String> names = new LinkedHashMap<>();
    for (Source source : fresh) {
      names.put(kept(source), source.fileName());
    }
    ByteArrayOutputStream json = new ByteArrayOutputStream(1 << 20);
    AnalysisJson.write(result, json);
    Map<String, String> documents = new LinkedHashMap<>();
    documents.put(Desk.DECLARATION, Json.text(declaration));
    documents.put(Desk.AUTOMATIC, json.toString(StandardCharsets.UTF_8));
    desk.store().studies().keepAnalysis(id, names, documents, person, "");
  }

  private KeptRecording kept(Source source) {
    return desk.store().studies().findRecording(source.sha256()).orElseGet(() -> unlisted(source));
  }

  private Path path(Source source) {
    return desk.store().file(kept(source));
  }

  private void demo(Context context) {
    String person = Person.of(context);
    jobs.run(
        context,
        job -> {
          Optional<KeptStudy> there =
              desk.store().studies().list("").stream()
                  .filter(study -> study.provenance().equals("demo"))
                  .filter(
                      study ->
                          desk.store()
                              .studies()
                              .findDocumentHash(study.id(), Desk.AUTOMATIC)
                              .isPresent())
                  .findFirst();
          return there.isPresent() ? there.get().id() : makeDemo(person, job);
        });
  }

  private String makeDemo(String person, Job job) throws IOException {
    Path folder = Files.createTempDirectory("lonefibre-demo");
    try {
      job.step("inventing recordings", 0, 1);
      Analyst.Demo demo = desk.analyst().demo(folder);
      List<Source> sources = new ArrayList<>();
      for (Source source : demo.declaration().parts().get(0).sources()) {
        try (var in = Files.newInputStream(demo.files().apply(source))) {
          KeptRecording kept = desk.store().keepRecording(in, source.fileName(), MOST_BYTES);
          sources.add(new Source(kept.sha256(), source.fileName(), null, null, null, null, null));
        }
      }
      Part plan = demo.declaration().parts().get(0);
      Declaration declaration =
          new Declaration(
              demo.declaration().subjectCode(),
              demo.declaration().ageYears(),
              demo.declaration().visit(),
              List.of(
                  new Part(
                      plan.muscle(),
                      plan.side(),
                      plan.needle(),
                      plan.activation(),
                      plan.limits(),
                      sources)));
      // Cancelled before this, nothing is left behind.
      Examination result = desk.analyst().analyse(declaration, this::path, job, null);
      KeptStudy study =
          desk.store().studies().create(demo.title(), declaration.subjectCode(), "demo", person);
      keep(study.id(), declaration, sources, result, person);
      return study.id();
    } finally {
      try (var files = Files.walk(folder)) {
        for (Path file : files.sorted(java.util.Comparator.reverseOrder()).toList()) {
          Files.deleteIfExists(file);
        }
      }
    }
  }
}
