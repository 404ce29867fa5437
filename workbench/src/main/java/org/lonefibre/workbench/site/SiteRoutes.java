package org.lonefibre.workbench.site;

import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.lonefibre.analysis.study.Decision;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.MotorUnitResult;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.StimulationResult;
import org.lonefibre.analysis.study.Study;
import org.lonefibre.analysis.study.SweepDrawing;
import org.lonefibre.store.audit.Hash;
import org.lonefibre.workbench.server.Json;
import org.lonefibre.workbench.server.LocalServer;
import org.lonefibre.workbench.server.Refusal;
import org.lonefibre.workbench.study.Desk;
import org.lonefibre.workbench.study.OpenStudy;
import org.lonefibre.workbench.study.Person;
import org.lonefibre.workbench.study.Reading;
import org.lonefibre.workbench.work.Jobs;

/** One site: its result before and after decisions, its signal, its sound. */
public final class SiteRoutes implements AutoCloseable {

  private static final int MOST_SWEEPS = 100;

  private final Desk desk;
  private final Jobs jobs;
  private final OpenSites sites;

  /** Routes to the sites of the studies of a desk. */
  public SiteRoutes(Desk desk, Jobs jobs) {
    this.desk = desk;
    this.jobs = jobs;
    this.sites = new OpenSites(desk);
  }

  /** Adds them. */
  public void add(RoutesConfig routes) {
    String site = "/api/studies/{study}/parts/{part}/sites/{site}";
    routes.get(site, this::show);
    routes.post(site + "/decisions", this::decide);
    routes.post(site + "/measurements", this::remeasure);
    routes.get(site + "/strip", this::strip);
    routes.get(site + "/sweeps", this::sweeps);
    routes.get(site + "/sound", this::sound);
  }

  /** Reads the long sites of a study once, so that their strips are at hand when it is opened. */
  public void prepare(String study) throws IOException {
    Examination result = desk.open(study).current();
    if (result != null) {
      sites.prepare(result);
    }
  }

  private static int number(Context context, String name) {
    String text = context.pathParam(name);
    if (!text.matches("[0-9]{1,4}")) {
      throw new Refusal(404, "There is no such site.");
    }
    return Integer.parseInt(text);
  }

  private void show(Context context) throws IOException {
    LocalServer.json(
        context,
        view(
            desk.open(context.pathParam("study")),
            number(context, "part"),
            number(context, "site")));
  }

  private static ObjectNode view(OpenStudy study, int part, int site) {
    Examination current = result(study);
    ObjectNode view = Json.object();
    view.set("study", Json.tree(study.kept()));
    view.put("isBlind", study.isBlind());
    if (study.isBlind()) {
      ObjectNode hidden = Reading.blind(study, part, site, Desk.site(current, part, site));
      view.set("site", hidden);
      view.set("automatic", hidden);
      view.putObject("summary");
    } else {
      Json.put(view, "site", Desk.site(current, part, site));
      Json.putWithoutSweeps(
          view, "automatic", Desk.site(Objects.requireNonNull(study.automatic()), part, site));
      view.set("summary", Json.tree(current.studies().get(part).summary()));
    }
    view.set(
        "steps",
        Json.tree(
            study.steps().stream()
                .filter(step -> step.site().equals(Desk.siteKey(part, site)))
                .toList()));
    view.set("setAside", Json.tree(Desk.setAside(study, part, site)));
    String measurement = Desk.measurement(study, part, site);
    view.put("isRemeasured", !measurement.isEmpty());
    view.put(
        "settingsHash",
        measurement.isEmpty()
            ? current.settings().hash()
            : Hash.of(current.settings().hash() + " " + measurement));
    Study examined = current.studies().get(part);
    view.put("siteCount", examined.recordings().size());
    ObjectNode of = view.putObject("examined");
    of.put("muscle", examined.muscle());
    of.put("needle", examined.needle());
    of.set("activation", Json.tree(examined.activation()));
    return view;
  }

  private static Examination result(OpenStudy study) {
    Examination current = study.current();
    if (current == null) {
      throw new Refusal(409, "The study has no result yet.");
    }
    return current;
  }

  /** A decision with the words its step is called by. */
  record Deciding(String stepName, Decision decision) {}

  private void decide(Context context) throws IOException {
    Deciding deciding = Json.read(context.body(), Deciding.class);
    String person = Person.of(context);
    if (deciding.stepName().isBlank() || deciding.stepName().length() > 200) {
      throw new Refusal(400, "A step needs a name of 1 to 200 characters.");
    }
    if (deciding.decision() instanceof Decision.OfSamples) {
      throw new Refusal(400, "This decision needs the samples: it is taken as a measurement.");
    }
    long start = System.nanoTime();
    int part = number(context, "part");
    int site = number(context, "site");
    OpenStudy study =
        desk.decide(
            context.pathParam("study"),
            part,
            site,
            deciding.decision(),
            deciding.stepName(),
            person);
    ObjectNode view = view(study, part, site);
    view.put("recomputedInMs", (System.nanoTime() - start) / 1e6);
    LocalServer.json(context, view);
  }

  /** A decision that needs the samples: the site is measured again, in work to be watched. */
  private void remeasure(Context context) {
    Deciding deciding = Json.read(context.body(), Deciding.class);
    String person = Person.of(context);
    if (deciding.stepName().isBlank() || deciding.stepName().length() > 200) {
      throw new Refusal(400, "A step needs a name of 1 to 200 characters.");
    }
    if (!(deciding.decision() instanceof Decision.OfSamples decision)) {
      throw new Refusal(400, "This decision does not need the samples.");
    }
    String id = context.pathParam("study");
    int part = number(context, "part");
    int site = number(context, "site");
    jobs.run(
        context,
        job -> {
          desk.remeasure(id, part, site, decision, deciding.stepName(), person, job);
          return id;
        });
  }

  private SiteTrace trace(Context context) throws IOException {
    return sites.trace(
        result(desk.open(context.pathParam("study"))),
        number(context, "part"),
        number(context, "site"));
  }

  private void strip(Context context) throws IOException {
    new ShownSignal(trace(context)).strip(context);
  }

  /**
   * Pictures of the sweeps of a unit: those named, or as many as asked for, spread over the site.
   */
  private void sweeps(Context context) throws IOException {
    RecordingResult site =
        Desk.site(
            result(desk.open(context.pathParam("study"))),
            number(context, "part"),
            number(context, "site"));
    String unit = Objects.requireNonNullElse(context.queryParam("unit"), "");
    SweepDrawing drawing = null;
    List<SweepPictures.Sweep> all = List.of();
    StimulationResult stimulation = site.stimulation();
    if (stimulation != null && !stimulation.endPlates().isEmpty()) {
      drawing = stimulation.drawing();
      all =
          stimulation.endPlates().get(0).latencies().stream()
              .map(s -> new SweepPictures.Sweep(s.sweep(), s.timeS()))
              .toList();
    }
    for (MotorUnitResult one :
        Objects.requireNonNullElse(site.motorUnits(), List.<MotorUnitResult>of())) {
      if (one.id().equals(unit) && !one.pairs().isEmpty()) {
        drawing = one.drawing();
        all =
            one.pairs().get(0).intervals().stream()
                .map(s -> new SweepPictures.Sweep(s.sweep(), s.timeS()))
                .toList();
      }
    }
    if (drawing == null || drawing.sweeps().isEmpty()) {
      throw new Refusal(404, "There are no sweeps of this unit.");
    }
    int named = (int) ShownSignal.parameter(context, "sweep");
    int most = (int) Math.min(MOST_SWEEPS, Math.max(1, ShownSignal.parameter(context, "most")));
    List<SweepPictures.Sweep> wanted = new ArrayList<>();
    int every = Math.max(1, (all.size() + most - 1) / most);
    for (int i = 0; i < all.size(); i++) {
      if (named > 0 ? all.get(i).sweep() == named : i % every == 0) {
        wanted.add(all.get(i));
      }
    }
    LocalServer.json(context, new SweepPictures(trace(context).signal(), drawing).of(wanted, all));
  }

  private void sound(Context context) throws IOException {
    RecordingResult site =
        Desk.site(
            result(desk.open(context.pathParam("study"))),
            number(context, "part"),
            number(context, "site"));
    new ShownSignal(trace(context)).sound(context, site.endS());
  }

  @Override
  public void close() throws IOException {
    sites.close();
  }
}
