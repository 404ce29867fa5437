package org.lonefibre.workbench.practice;

import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.CancellationException;
import org.lonefibre.analysis.grading.Grade;
import org.lonefibre.store.practice.PracticeAnswer;
import org.lonefibre.store.practice.PracticeShelf;
import org.lonefibre.workbench.declaration.Analyst;
import org.lonefibre.workbench.declaration.PracticeCase;
import org.lonefibre.workbench.declaration.PracticeCases;
import org.lonefibre.workbench.server.Json;
import org.lonefibre.workbench.server.LocalServer;
import org.lonefibre.workbench.server.Refusal;
import org.lonefibre.workbench.study.Person;
import org.lonefibre.workbench.work.Jobs;

/** Cases are shown without their truth; an answer is kept first and then told the truth. */
public final class PracticeRoutes {

  private static final int KEPT = 60;

  private final PracticeCases cases;
  private final PracticeShelf shelf;
  private final Jobs jobs;

  /** Cases made already, the last used ones. */
  private final Map<String, PracticeCase> made =
      new LinkedHashMap<>(16, 0.75f, true) {
        @Override
        protected boolean removeEldestEntry(Map.Entry<String, PracticeCase> eldest) {
          return size() > KEPT;
        }
      };

  /** Where nobody looks on. */
  static final Analyst.Watch NOBODY =
      new Analyst.Watch() {
        @Override
        public void step(String name, int done, int of) {}

        @Override
        public boolean isCancelled() {
          return false;
        }
      };

  /** Routes to cases, whose answers are kept; cases are made in work that can be watched. */
  public PracticeRoutes(PracticeCases cases, PracticeShelf shelf, Jobs jobs) {
    this.jobs = jobs;
    this.cases = cases;
    this.shelf = shelf;
  }

  /** Adds them. */
  public void add(RoutesConfig routes) {
    new PitfallRoutes(cases.pitfalls(), shelf, jobs).add(routes);
    routes.get("/api/practice", this::answers);
    routes.get("/api/practice/{round}/study", this::study);
    routes.get("/api/practice/{round}/{number}", this::show);
    routes.post("/api/practice/{round}/making", this::makeAnswered);
    routes.post("/api/practice/{round}/{number}/making", this::make);
    routes.post("/api/practice/{round}/{number}/answers", this::answer);
  }

  static String person(Context context) {
    String person = Objects.requireNonNullElse(context.queryParam("person"), "").strip();
    return person.length() > 80 ? person.substring(0, 80) : person;
  }

  private static long round(Context context) {
    String text = context.pathParam("round");
    if (!text.matches("[1-9][0-9]{0,5}")) {
      throw new Refusal(404, "There is no such round.");
    }
    return Long.parseLong(text);
  }

  private int number(Context context) {
    String text = context.pathParam("number");
    if (!text.matches("[1-9][0-9]{0,2}") || Integer.parseInt(text) > cases.size()) {
      throw new Refusal(404, "There is no such case.");
    }
    return Integer.parseInt(text);
  }

  /** A case, made if it is not there; two at once may make the same, which is the same. */
  private PracticeCase made(long round, int number, Analyst.Watch watch) throws IOException {
    String key = round + "/" + number;
    synchronized (made) {
      PracticeCase found = made.get(key);
      if (found != null) {
        return found;
      }
    }
    PracticeCase found = cases.make(round, number, watch);
    synchronized (made) {
      made.put(key, found);
    }
    return found;
  }

  private void make(Context context) {
    long round = round(context);
    int number = number(context);
    jobs.run(
        context,
        job -> {
          made(round, number, job);
          return round + "/" + number;
        });
  }

  /** All cases that a person has answered in a round, for its study. */
  private void makeAnswered(Context context) {
    long round = round(context);
    List<Integer> numbers =
        shelf.list(Person.of(context)).stream()
            .filter(answer -> answer.round() == round)
            .map(PracticeAnswer::number)
            .toList();
    jobs.run(
        context,
        job -> {
          for (int i = 0; i < numbers.size(); i++) {
            job.step("Cases are made again", i, numbers.size());
            if (job.isCancelled()) {
              throw new CancellationException("cancelled");
            }
            made(round, numbers.get(i), NOBODY);
          }
          return Long.toString(round);
        });
  }

  private void answers(Context context) {
    ObjectNode answer = Json.object();
    answer.put("source", cases.source());
    answer.put("size", cases.size());
    answer.set(
        "answers",
        Json.tree(
            shelf.list(person(context)).stream()
                .filter(one -> one.round() != PitfallRoutes.ROUND)
                .toList()));
    LocalServer.json(context, answer);
  }

  private void show(Context context) throws IOException {
    PracticeCase one = made(round(context), number(context), NOBODY);
    ObjectNode view = Json.object();
    view.put("samplingRateHz", one.site().samplingRateHz());
    view.put("noiseUv", one.site().noiseUv());
    view.put("offsetMs", one.potential().offsetMs());
    view.set("drawing", Json.tree(Objects.requireNonNull(one.unit().drawing())));
    view.set("shape", Json.tree(Objects.requireNonNull(one.potential().drawing())));
    LocalServer.json(context, view);
  }

  private void answer(Context context) throws IOException {
    String person = Person.of(context);
    long round = round(context);
    int number = number(context);
    Judgement judgement = Json.read(context.body(), Judgement.class);
    PracticeCase one = made(round, number, NOBODY);
    Mark mark = Mark.of(judgement, one.truth());
    ObjectNode content = Json.object();
    content.set("judgement", Json.tree(judgement));
    content.set("mark", Json.tree(mark));
    boolean isFirst =
        shelf.keep(
            new PracticeAnswer(
                person,
                round,
                number,
                "",
                one.truth().kind(),
                Json.tree(judgement.grade()).asText(),
                Json.tree(one.truth().grade()).asText(),
                mark.scorePercent(),
                content.toString()));
    ObjectNode view = Json.object();
    view.put("isFirst", isFirst);
    view.set("truth", Json.tree(one.truth()));
    view.set("mark", Json.tree(mark));
    view.set("potential", Json.tree(one.potential()));
    view.set("pair", Json.tree(one.pair()));
    LocalServer.json(context, view);
  }

  /** What the acceptances of a person do to the study of a round, beside those of the truth. */
  private void study(Context context) throws IOException {
    long round = round(context);
    List<PracticeCases.Taken> byPerson = new ArrayList<>();
    List<PracticeCases.Taken> byTruth = new ArrayList<>();
    for (PracticeAnswer answer : shelf.list(person(context))) {
      if (answer.round() == round) {
        PracticeCase one = made(round, answer.number(), NOBODY);
        byPerson.add(
            new PracticeCases.Taken(
                one, answer.given().equals(Json.tree(Grade.SINGLE_FIBRE).asText())));
        byTruth.add(new PracticeCases.Taken(one, one.truth().grade() == Grade.SINGLE_FIBRE));
      }
    }
    if (byPerson.isEmpty()) {
      throw new Refusal(409, "No case of this round was answered yet.");
    }
    ObjectNode view = Json.object();
    view.put("cases", byPerson.size());
    view.put("accepted", byPerson.stream().filter(PracticeCases.Taken::isAccepted).count());
    view.put("oneFibre", byTruth.stream().filter(PracticeCases.Taken::isAccepted).count());
    view.set("byPerson", Json.tree(cases.study(byPerson)));
    view.set("byTruth", Json.tree(cases.study(byTruth)));
    LocalServer.json(context, view);
  }
}
