package org.lonefibre.workbench.limits;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.reference.LaboratoryLimits;
import org.lonefibre.analysis.reference.LimitCatalogue;
import org.lonefibre.analysis.reference.LimitChoice;
import org.lonefibre.analysis.reference.LimitConfirmation;
import org.lonefibre.analysis.reference.LimitFile;
import org.lonefibre.analysis.reference.LimitSettings;
import org.lonefibre.analysis.reference.PublishedLimit;
import org.lonefibre.analysis.reference.StudyDeclaration;
import org.lonefibre.analysis.reference.StudyJudge;
import org.lonefibre.analysis.reference.StudySettings;
import org.lonefibre.analysis.reference.TableFault;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.Study;
import org.lonefibre.workbench.server.Json;
import org.lonefibre.workbench.server.LocalServer;
import org.lonefibre.workbench.server.Refusal;
import org.lonefibre.workbench.study.Desk;
import org.lonefibre.workbench.study.OpenStudy;
import org.lonefibre.workbench.study.Person;

/**
 * What a laboratory decides about limits: sets of its own, rows from memory that were read in
 * print, the set it uses where several fit; and what each set would say of a study.
 *
 * <p>Each decision has its entry in the record of changes; open studies that are not signed are
 * compared again.
 */
public final class LimitRoutes {

  private static final int LONGEST_REASON = 500;

  private final Desk desk;

  /** Routes beside the studies of a desk. */
  public LimitRoutes(Desk desk) {
    this.desk = desk;
  }

  /** Adds them. */
  public void add(RoutesConfig routes) {
    routes.get("/api/limits/laboratory", this::show);
    routes.post("/api/limits/files", this::keep);
    routes.post("/api/limits/files/withdrawn", this::withdraw);
    routes.post("/api/limits/confirmations", this::confirm);
    routes.post("/api/limits/confirmations/withdrawn", this::withdrawConfirmation);
    routes.post("/api/limits/choices", this::choose);
    routes.get("/api/studies/{study}/limits", this::compare);
  }

  private void show(Context context) throws IOException {
    LaboratoryLimits laboratory = desk.store().limits().laboratory();
    LimitCatalogue catalogue = catalogue(laboratory);
    ObjectNode view = Json.object();
    ArrayNode files = view.putArray("files");
    for (LimitFile file : laboratory.files()) {
      ObjectNode one = files.addObject();
      one.put("name", file.name());
      one.put("rows", file.size());
      one.set("sets", Json.tree(file.listSets()));
    }
    ArrayNode confirmations = view.putArray("confirmations");
    for (LimitConfirmation confirmation : laboratory.confirmations()) {
      ObjectNode one = confirmations.addObject();
      one.put("set", confirmation.set());
      one.put("muscle", confirmation.muscle());
      one.put("confirmedBy", confirmation.confirmedBy());
      one.put("confirmedOn", confirmation.confirmedOn());
      one.put("read", confirmation.reason());
      one.put("holds", confirmation.holdsIn(catalogue));
    }
    ArrayNode confirmable = view.putArray("confirmable");
    for (PublishedLimit row : catalogue.listPublished()) {
      if (row.use().equals(PublishedLimit.OFF)) {
        addConfirmable(confirmable, catalogue, row.set(), null);
        addConfirmable(confirmable, catalogue, row.set(), row.muscle());
      }
    }
    view.set("overlaps", Json.tree(LimitOverlaps.of(catalogue, laboratory.choices())));
    LocalServer.json(context, view);
  }

  /** What can be confirmed, once each, with the values that would be. */
  private static void addConfirmable(
      ArrayNode to, LimitCatalogue catalogue, String set, @Nullable String muscle) {
    ObjectNode one = Json.object();
    one.put("set", set);
    one.put("muscle", muscle);
    one.put("values", catalogue.confirmable(set, muscle));
    for (JsonNode known : to) {
      if (known.equals(one)) {
        return;
      }
    }
    to.add(one);
  }

  private static LimitCatalogue catalogue(LaboratoryLimits laboratory) {
    return LimitCatalogue.load(LimitSettings.defaults(), laboratory);
  }

  /** A file of limit sets as text, and why it is used. */
  record NewFile(String name, String text, String reason) {}

  private void keep(Context context) throws IOException {
    NewFile wanted = Json.read(context.body(), NewFile.class);
    String person = Person.of(context);
    if (!wanted.name().matches("[A-Za-z0-9._ -]{1,80}")) {
      throw new Refusal(
          400,
          "The name of the file may hold letters, digits, dots, hyphens and blanks, up to 80.");
    }
    try {
      desk.store()
          .limits()
          .keep(LimitFile.of(wanted.name(), wanted.text()), reason(wanted.reason()), person);
    } catch (TableFault e) {
      throw new Refusal(400, String.valueOf(e.getMessage()));
    }
    decided(context);
  }

  /** A kept file, and why it is used no more. */
  record Withdrawal(String name, String reason) {}

  private void withdraw(Context context) throws IOException {
    Withdrawal wanted = Json.read(context.body(), Withdrawal.class);
    String person = Person.of(context);
    if (desk.store().limits().laboratory().files().stream()
        .noneMatch(file -> file.name().equals(wanted.name()))) {
      throw new Refusal(404, "There is no kept file of this name.");
    }
    desk.store().limits().withdrawFile(wanted.name(), reason(wanted.reason()), person);
    decided(context);
  }

  /** Rows from memory; what was read; the values as they were shown. */
  record Confirmation(String set, @Nullable String muscle, String read, String values) {}

  private void confirm(Context context) throws IOException {
    Confirmation wanted = Json.read(context.body(), Confirmation.class);
    String person = Person.of(context);
    String values =
        LimitCatalogue.load(LimitSettings.defaults()).confirmable(wanted.set(), wanted.muscle());
    if (values.isEmpty()) {
      throw new Refusal(400, "There are no rows from memory of this set and muscle.");
    }
    if (!values.equals(wanted.values())) {
      throw new Refusal(409, "The values are others than those that were shown: look again.");
    }
    desk.store().limits().confirm(wanted.set(), wanted.muscle(), reason(wanted.read()), person);
    decided(context);
  }

  /** A confirmation, and why it is taken back. */
  record TakenBack(String set, @Nullable String muscle, String reason) {}

  private void withdrawConfirmation(Context context) throws IOException {
    TakenBack wanted = Json.read(context.body(), TakenBack.class);
    String person = Person.of(context);
    if (desk.store().limits().laboratory().confirmations().stream()
        .noneMatch(
            c ->
                c.set().equals(wanted.set())
                    && java.util.Objects.equals(c.muscle(), wanted.muscle()))) {
      throw new Refusal(404, "There is no such confirmation.");
    }
    desk.store()
        .limits()
        .withdrawConfirmation(wanted.set(), wanted.muscle(), reason(wanted.reason()), person);
    decided(context);
  }

  /** The set that is used where several fit, and why. */
  record Choice(String muscle, String needle, Activation activation, String set, String reason) {}

  private void choose(Context context) throws IOException {
    Choice wanted = Json.read(context.body(), Choice.class);
    String person = Person.of(context);
    LaboratoryLimits laboratory = desk.store().limits().laboratory();
    boolean fits =
        LimitOverlaps.of(catalogue(laboratory), laboratory.choices()).stream()
            .anyMatch(
                overlap ->
                    overlap.muscle().equals(wanted.muscle())
                        && overlap.needle().equals(wanted.needle())
                        && overlap.activation() == wanted.activation()
                        && overlap.sets().stream().anyMatch(s -> s.set().equals(wanted.set())));
    if (!fits) {
      throw new Refusal(400, "Several sets must fit there, and this one be among them.");
    }
    desk.store()
        .limits()
        .choose(
            new LimitChoice(wanted.muscle(), wanted.needle(), wanted.activation(), wanted.set()),
            reason(wanted.reason()),
            person);
    decided(context);
  }

  private void decided(Context context) throws IOException {
    desk.forget();
    show(context);
  }

  private void compare(Context context) throws IOException {
    OpenStudy study = desk.open(context.pathParam("study"));
    study.requireGrades();
    Examination current = study.current();
    StudyJudge judge =
        new StudyJudge(catalogue(desk.store().limits().laboratory()), StudySettings.defaults());
    ObjectNode view = Json.object();
    ArrayNode parts = view.putArray("parts");
    if (current != null) {
      for (Study part : current.studies()) {
        parts.add(
            Json.tree(
                judge.compare(
                    new StudyDeclaration(
                        part.muscle(),
                        current.subject().ageYears(),
                        part.needle(),
                        part.activation(),
                        StudyDeclaration.Origin.DECLARED,
                        null,
                        null),
                    part.recordings())));
      }
    }
    LocalServer.json(context, view);
  }

  private static String reason(String text) {
    if (text.isBlank() || text.length() > LONGEST_REASON) {
      throw new Refusal(400, "Say why, in 1 to " + LONGEST_REASON + " characters.");
    }
    return text.strip();
  }
}
