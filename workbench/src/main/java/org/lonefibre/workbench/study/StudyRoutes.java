package org.lonefibre.workbench.study;

import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Visit;
import org.lonefibre.store.studies.KeptStudy;
import org.lonefibre.store.studies.Step;
import org.lonefibre.workbench.declaration.Declaration;
import org.lonefibre.workbench.declaration.Part;
import org.lonefibre.workbench.server.Json;
import org.lonefibre.workbench.server.LocalServer;
import org.lonefibre.workbench.server.Refusal;

/** The list of studies, and one study: facts, notes, undo, redo, signature, exports. */
public final class StudyRoutes {

  /** Fields a person may type into. */
  private static final Set<String> FIELDS =
      Set.of(
          "comment",
          "conclusion",
          Volunteers.FIELD,
          "check-contraindications",
          "check-anticoagulation",
          "check-infection",
          "check-medication",
          "check-botulinum",
          "check-temperature",
          "check-needle",
          "medication-last-dose",
          "botulinum-last",
          "needle-condition");

  private static final int LONGEST = 20_000;

  private final Desk desk;

  /** Routes to the studies of a desk. */
  public StudyRoutes(Desk desk) {
    this.desk = desk;
  }

  /** Adds them. */
  public void add(RoutesConfig routes) {
    routes.get("/api/studies", this::list);
    routes.post("/api/studies", this::create);
    routes.get("/api/studies/{study}", this::show);
    routes.post("/api/studies/{study}/declaration", this::declare);
    routes.post("/api/studies/{study}/notes", this::note);
    routes.post("/api/studies/{study}/undo", context -> move(context, Direction.UNDO));
    routes.post("/api/studies/{study}/redo", context -> move(context, Direction.REDO));
    routes.post("/api/studies/{study}/signatures", this::sign);
    routes.get("/api/studies/{study}/exports/{format}", this::export);
    routes.get(
        "/api/studies/{study}/effects",
        context -> LocalServer.json(context, desk.effects(context.pathParam("study"))));
    routes.get("/api/studies/{study}/parts/{part}/drawings", this::drawings);
  }

  /** The sweeps kept of the first motor unit of each site, or after its stimuli. */
  private void drawings(Context context) throws IOException {
    OpenStudy study = desk.open(context.pathParam("study"));
    String part = context.pathParam("part");
    if (study.current() == null
        || !part.matches("[0-9]{1,4}")
        || Integer.parseInt(part) >= study.current().studies().size()) {
      throw new Refusal(404, "The study has no such part.");
    }
    LocalServer.json(
        context,
        study.current().studies().get(Integer.parseInt(part)).recordings().stream()
            .map(SiteDrawing::of)
            .toList());
  }

  private enum Direction {
    UNDO,
    REDO
  }

  private void list(Context context) {
    String search = Optional.ofNullable(context.queryParam("search")).orElse("");
    LocalServer.json(context, desk.store().studies().list(search));
  }

  /** What a new study is begun with. */
  record NewStudy(String title, @Nullable String subjectCode, @Nullable Double ageYears) {}

  private void create(Context context) throws IOException {
    NewStudy wanted = Json.read(context.body(), NewStudy.class);
    String person = Person.of(context);
    KeptStudy study =
        desk.store()
            .studies()
            .create(
                words(wanted.title(), "title"),
                code(wanted.subjectCode()),
                provenance(wanted.subjectCode()),
                person);
    Declaration declaration =
        new Declaration(code(wanted.subjectCode()), wanted.ageYears(), Visit.UNDECLARED, List.of());
    keep(study.id(), declaration, person);
    context.status(201);
    show(context, study.id());
  }

  private static String provenance(@Nullable String code) {
    return code != null && code.toUpperCase(Locale.ROOT).startsWith("DEMO")
        ? "demo"
        : "examination";
  }

  private void keep(String id, Declaration declaration, String person) {
    desk.store()
        .studies()
        .keepAnalysis(id, Map.of(), Map.of(Desk.DECLARATION, Json.text(declaration)), person, "");
  }

  private void show(Context context) throws IOException {
    show(context, context.pathParam("study"));
  }

  private void show(Context context, String id) throws IOException {
    LocalServer.json(context, view(id));
  }

  private ObjectNode view(String id) throws IOException {
    OpenStudy study = desk.open(id);
    ObjectNode view =
        StudyView.of(
            study, desk.store().studies().notes(id), desk.store().studies().signatures().list(id));
    view.set("files", Json.tree(desk.store().studies().listFiles(id)));
    return view;
  }

  /** Facts as a person gives them; the recordings of each part stay as they are. */
  private void declare(Context context) throws IOException {
    String id = context.pathParam("study");
    OpenStudy before = desk.open(id);
    Declaration wanted = Json.read(context.body(), Declaration.class);
    List<Part> parts = before.declaration().parts();
    boolean fits = wanted.parts().size() == parts.size();
    for (int p = 0; fits && p < parts.size(); p++) {
      fits = wanted.parts().get(p).isAnalysedAs(parts.get(p));
    }
    if (!fits) {
      throw new Refusal(
          409,
          "Needle, activation and recordings are part of the measurement: import the recordings"
              + " into a new study to change them.");
    }
    code(wanted.subjectCode());
    String person = Person.of(context);
    keep(id, wanted, person);
    desk.store().studies().rename(id, before.kept().title(), code(wanted.subjectCode()), person);
    show(context, id);
  }

  /** A field and what is typed into it. */
  record Note(String field, String text) {}

  private void note(Context context) throws IOException {
    String id = context.pathParam("study");
    Note note = Json.read(context.body(), Note.class);
    if (!FIELDS.contains(note.field()) || note.text().length() > LONGEST) {
      throw new Refusal(400, "There is no such field, or the text is too long.");
    }
    desk.store().studies().note(id, note.field(), note.text(), Person.of(context));
    ObjectNode saved = Json.object();
    saved.set("study", Json.tree(desk.store().studies().find(id).orElseThrow()));
    LocalServer.json(context, saved);
  }

  private void move(Context context, Direction direction) throws IOException {
    String id = context.pathParam("study");
    String person = Person.of(context);
    Optional<Step> moved =
        direction == Direction.UNDO
            ? desk.store().studies().steps().undo(id, person)
            : desk.store().studies().steps().redo(id, person);
    ObjectNode view = view(id);
    view.put("moved", moved.map(Step::stepName).orElse(null));
    LocalServer.json(context, view);
  }

  /** What is signed and what that means. */
  record Signing(long revision, String meaning) {}

  private void sign(Context context) throws IOException {
    String id = context.pathParam("study");
    Signing signing = Json.read(context.body(), Signing.class);
    String person = Person.of(context);
    OpenStudy study = desk.open(id);
    study.requireGrades();
    if (study.kept().revision() != signing.revision() || study.current() == null) {
      throw new Refusal(409, "The study was changed, or has no result: look at it again first.");
    }
    desk.store()
        .studies()
        .signatures()
        .sign(
            id,
            signing.revision(),
            SealedStudy.text(study, desk.store().studies().notes(id)),
            desk.store().seal(),
            person,
            words(signing.meaning(), "meaning"));
    show(context, id);
  }

  private void export(Context context) throws IOException {
    String id = context.pathParam("study");
    OpenStudy study = desk.open(id);
    Map<String, String> notes = new LinkedHashMap<>(desk.store().studies().notes(id));
    Exports.Document document =
        Exports.of(
            context.pathParam("format"),
            study,
            notes,
            desk.store().studies().signatures().list(id));
    context.contentType(document.type());
    context.header("Content-Disposition", "attachment; filename=\"" + document.fileName() + "\"");
    context.result(document.bytes());
  }

  private static @Nullable String code(@Nullable String code) {
    if (code == null || code.isBlank()) {
      return null;
    }
    if (!code.strip().matches("[A-Za-z0-9._-]{1,40}")) {
      throw new Refusal(
          400,
          "A subject code is letters, digits, dots, hyphens and underscores, at most 40: never a"
              + " name.");
    }
    return code.strip();
  }

  private static String words(@Nullable String text, String what) {
    if (text == null || text.isBlank() || text.length() > 200) {
      throw new Refusal(400, "The " + what + " must have 1 to 200 characters.");
    }
    return text.strip();
  }
}
