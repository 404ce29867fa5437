package org.lonefibre.workbench.practice;

import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.Map;
import org.lonefibre.store.practice.PracticeAnswer;
import org.lonefibre.store.practice.PracticeShelf;
import org.lonefibre.workbench.declaration.Analyst;
import org.lonefibre.workbench.declaration.PitfallCase;
import org.lonefibre.workbench.declaration.PitfallCases;
import org.lonefibre.workbench.server.Json;
import org.lonefibre.workbench.server.LocalServer;
import org.lonefibre.workbench.server.Refusal;
import org.lonefibre.workbench.site.ShownSignal;
import org.lonefibre.workbench.study.Person;
import org.lonefibre.workbench.work.Jobs;

/**
 * Cases of the library are shown without their truth; an answer is kept first and then told it. In
 * the shelf they are the round {@value #ROUND}, which no drawn case has.
 */
final class PitfallRoutes {

  static final long ROUND = 0;

  /** Each holds its recording. */
  private static final int KEPT = 4;

  /** A case and its signal as it is shown. */
  private record Made(PitfallCase of, ShownSignal signal) {}

  private final PitfallCases cases;
  private final PracticeShelf shelf;
  private final Jobs jobs;
  private final Map<Integer, Made> made =
      new LinkedHashMap<>(8, 0.75f, true) {
        @Override
        protected boolean removeEldestEntry(Map.Entry<Integer, Made> eldest) {
          return size() > KEPT;
        }
      };

  PitfallRoutes(PitfallCases cases, PracticeShelf shelf, Jobs jobs) {
    this.cases = cases;
    this.shelf = shelf;
    this.jobs = jobs;
  }

  void add(RoutesConfig routes) {
    routes.get("/api/pitfalls", this::answers);
    routes.get("/api/pitfalls/{number}", this::show);
    routes.get("/api/pitfalls/{number}/strip", c -> made(number(c)).signal().strip(c));
    routes.get(
        "/api/pitfalls/{number}/sound",
        c -> made(number(c)).signal().sound(c, made(number(c)).of().site().endS()));
    routes.post("/api/pitfalls/{number}/making", this::make);
    routes.post("/api/pitfalls/{number}/answers", this::answer);
  }

  private int number(Context context) {
    String text = context.pathParam("number");
    if (!text.matches("[1-9][0-9]{0,2}") || Integer.parseInt(text) > cases.size()) {
      throw new Refusal(404, "There is no such case.");
    }
    return Integer.parseInt(text);
  }

  private Made made(int number) throws IOException {
    return made(number, PracticeRoutes.NOBODY);
  }

  /** A case, made if it is not there; two at once may make the same, which is the same. */
  private Made made(int number, Analyst.Watch watch) throws IOException {
    synchronized (made) {
      Made found = made.get(number);
      if (found != null) {
        return found;
      }
    }
    PitfallCase of = cases.make(number, watch);
    Made one = new Made(of, ShownSignal.of(of.signal()));
    synchronized (made) {
      made.put(number, one);
    }
    return one;
  }

  private void answers(Context context) {
    ObjectNode answer = Json.object();
    answer.put("source", cases.source());
    answer.put("size", cases.size());
    answer.set("choices", Json.tree(cases.choices()));
    answer.set(
        "answers",
        Json.tree(
            shelf.list(PracticeRoutes.person(context)).stream()
                .filter(one -> one.round() == ROUND)
                .toList()));
    LocalServer.json(context, answer);
  }

  private void make(Context context) {
    int number = number(context);
    jobs.run(
        context,
        job -> {
          made(number, job);
          return "pitfalls/" + number;
        });
  }

  private void show(Context context) throws IOException {
    LocalServer.json(context, PitfallView.unjudged(made(number(context)).of()));
  }

  /** What a person says of a case. */
  record Said(String choice) {}

  private void answer(Context context) throws IOException {
    String person = Person.of(context);
    int number = number(context);
    Said said = Json.read(context.body(), Said.class);
    if (cases.choices().stream().noneMatch(choice -> choice.code().equals(said.choice()))) {
      throw new Refusal(400, "choice must be one of those offered, found " + said.choice());
    }
    PitfallCase of = made(number).of();
    boolean isRight = said.choice().equals(of.expected());
    boolean isFirst =
        shelf.keep(
            new PracticeAnswer(
                person,
                ROUND,
                number,
                "",
                of.truth(),
                said.choice(),
                of.expected(),
                isRight ? 100 : 0,
                Json.text(said)));
    ObjectNode view = Json.object();
    view.put("isFirst", isFirst);
    view.put("isRight", isRight);
    view.put("case", of.id());
    view.put("truth", of.truth());
    view.put("asked", of.asked());
    view.put("isThere", of.isThere());
    view.put("isRaised", of.isRaised());
    view.put("expected", of.expected());
    view.set("findings", PitfallView.findings(of.site()));
    LocalServer.json(context, view);
  }
}
