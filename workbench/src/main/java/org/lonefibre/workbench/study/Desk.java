package org.lonefibre.workbench.study;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Decision;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.Study;
import org.lonefibre.analysis.study.Subject;
import org.lonefibre.analysis.study.Visit;
import org.lonefibre.report.document.AnalysisJson;
import org.lonefibre.store.Store;
import org.lonefibre.store.studies.KeptStudy;
import org.lonefibre.store.studies.Step;
import org.lonefibre.workbench.declaration.Analyst;
import org.lonefibre.workbench.declaration.Declaration;
import org.lonefibre.workbench.server.Json;
import org.lonefibre.workbench.server.Refusal;

/**
 * The studies that are open: each computed once from what is kept, a few kept at hand.
 *
 * <p>What is shown always belongs to the revision in the store: after a change it is computed
 * again, and only the sites whose decisions changed. A study that is signed is shown as it was
 * sealed, whatever it would be compared with today. Thread rule: safe.
 */
public final class Desk {

  /** Kind of document: what is declared. */
  public static final String DECLARATION = "declaration";

  /** Kind of document: the automatic result. */
  public static final String AUTOMATIC = "automatic result";

  private static final int MOST_OPEN = 3;

  private final Store store;
  private final Analyst analyst;
  private final Remeasured remeasured;
  private final Map<String, OpenStudy> open =
      new LinkedHashMap<>(8, 0.75f, true) {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<String, OpenStudy> eldest) {
          return size() > MOST_OPEN;
        }
      };

  /** A desk for a store. */
  public Desk(Store store, Analyst analyst) {
    this.store = store;
    this.analyst = analyst;
    this.remeasured = new Remeasured(store, analyst);
  }

  /** The store. */
  public Store store() {
    return store;
  }

  /** The measuring chain. */
  public Analyst analyst() {
    return analyst;
  }

  /** Opens the study that was changed last, so that it is at hand when it is asked for. */
  public void prepare() throws IOException {
    List<KeptStudy> all = store.studies().list("");
    if (all.isEmpty()) {
      return;
    }
    Examination automatic = open(all.get(0).id()).automatic();
    if (automatic != null
        && !automatic.studies().isEmpty()
        && !automatic.studies().get(0).recordings().isEmpty()) {
      RecordingResult first = automatic.studies().get(0).recordings().get(0);
      Json.bytes(analyst.revise(automatic, 0, first, List.of()));
    }
  }

  /** Has studies compared again when they are opened next: what they are compared with changed. */
  public synchronized void forget() {
    open.clear();
  }

  /** A study as it stands now. */
  public synchronized OpenStudy open(String id) throws IOException {
    KeptStudy kept = store.studies().find(id).orElseThrow();
    OpenStudy before = open.get(id);
    if (before != null && before.kept().revision() == kept.revision()) {
      return before;
    }
    String text = store.studies().findDocument(id, DECLARATION).orElse("");
    Declaration declaration =
        text.isEmpty()
            ? new Declaration(kept.subjectCode(), null, Visit.UNDECLARED, List.of())
            : before != null && text.equals(Json.text(before.declaration()))
                ? before.declaration()
                : Json.read(text, Declaration.class);
    Examination automatic = automatic(id, before);
    List<Step> steps = store.studies().steps().list(id);
    OpenStudy now =
        new OpenStudy(
            kept,
            declaration,
            automatic,
            steps,
            automatic == null
                ? null
                : kept.state().equals("signed")
                    ? SealedStudy.result(store.studies().signatures().list(id))
                    : current(id, declaration, automatic, steps, before),
            store
                .studies()
                .findDocument(id, Reading.KIND)
                .map(content -> Json.read(content, Reading.class))
                .orElse(null));
    open.put(id, now);
    return now;
  }

  private @Nullable Examination automatic(String id, @Nullable OpenStudy before)
      throws IOException {
    String hash = store.studies().findDocumentHash(id, AUTOMATIC).orElse("");
    if (hash.isEmpty()) {
      return null;
    }
    if (before != null && before.automatic() != null && hash.equals(hashes.get(id))) {
      return before.automatic();
    }
    String text = store.studies().findDocument(id, AUTOMATIC).orElseThrow();
    hashes.put(id, hash);
    return AnalysisJson.read("automatic result", text.getBytes(StandardCharsets.UTF_8));
  }

  /** Hash of the automatic result each open study was read from. */
  private final Map<String, String> hashes = new java.util.HashMap<>();

  private Examination current(
      String id,
      Declaration declaration,
      Examination automatic,
      List<Step> steps,
      @Nullable OpenStudy before)
      throws IOException {
    boolean same = before != null && before.automatic() == automatic;
    Analyst.Known known = new Analyst.Known(declaration, automatic);
    List<Study> studies = new ArrayList<>();
    for (int part = 0; part < automatic.studies().size(); part++) {
      Study found = automatic.studies().get(part);
      List<RecordingResult> sites = new ArrayList<>();
      for (int site = 0; site < found.recordings().size(); site++) {
        String key = siteKey(part, site);
        List<Step> now = active(steps, key);
        boolean untouched = same && before != null && active(before.steps(), key).equals(now);
        sites.add(
            untouched && before != null && before.current() != null
                ? before.current().studies().get(part).recordings().get(site)
                : revised(id, known, part, site, SiteSteps.of(steps, key)));
      }
      studies.add(
          new Study(
              declaration.parts().get(part).muscle(),
              declaration.parts().get(part).side(),
              found.activation(),
              declaration.parts().get(part).needle(),
              sites,
              analyst.judge(declaration, automatic, part, sites)));
    }
    return new Examination(
        automatic.schema(),
        automatic.producedBy(),
        automatic.createdAt(),
        automatic.settings(),
        new Subject(declaration.subjectCode(), declaration.ageYears()),
        declaration.visit(),
        studies,
        automatic.refused(),
        automatic.chain());
  }

  private static List<Step> active(List<Step> steps, String site) {
    return steps.stream()
        .filter(step -> step.state().equals("active") && step.site().equals(site))
        .toList();
  }

  /** A site as some steps make it. */
  synchronized RecordingResult revised(
      String id, Analyst.Known known, int part, int number, SiteSteps steps) throws IOException {
    RecordingResult measured = remeasured.site(id, known, part, number, steps);
    return steps.ofKept().isEmpty()
        ? measured
        : revisedBy(known.result(), part, measured, steps.ofKept());
  }

  /** The last revision: a decision is tried before it is kept, and needs computing once. */
  private record Tried(RecordingResult site, List<Decision> decisions, RecordingResult result) {}

  private @Nullable Tried tried;

  private RecordingResult revisedBy(
      Examination automatic, int part, RecordingResult site, List<Decision> decisions)
      throws IOException {
    Tried last = tried;
    if (last != null && last.site() == site && last.decisions().equals(decisions)) {
      return last.result();
    }
    RecordingResult result = analyst.revise(automatic, part, site, decisions);
    tried = new Tried(site, List.copyOf(decisions), result);
    return result;
  }

  /** What decisions call a site: part and number within it, from 0. */
  public static String siteKey(int part, int site) {
    return part + "/" + site;
  }

  /**
   * Takes a decision about a site; it is tried before it is kept.
   *
   * @throws Refusal if the study has no such site, or nothing the decision is about
   */
  public synchronized OpenStudy decide(
      String id, int part, int site, Decision decision, String stepName, String actor)
      throws IOException {
    OpenStudy before = open(id);
    Examination automatic = before.automatic();
    if (automatic == null) {
      throw new Refusal(409, "The study has no result yet to decide about.");
    }
    String key = siteKey(part, site);
    SiteSteps steps = SiteSteps.of(before.steps(), key).with(decision);
    Analyst.Known known = new Analyst.Known(before.declaration(), automatic);
    RecordingResult possible = revised(id, known, part, site, steps);
    if (possible.signals().isEmpty()) {
      throw new Refusal(409, "The site has no signal to decide about.");
    }
    store
        .studies()
        .steps()
        .decide(id, key, stepName, Json.text(Json.tree(decision)), decision.reason(), actor);
    return open(id);
  }

  /**
   * Takes a decision about a site that needs the samples: the site is measured again before the
   * decision is kept.
   *
   * @throws Refusal if the study was changed meanwhile
   * @throws IllegalArgumentException if the recording does not bear the decision out
   */
  public OpenStudy remeasure(
      String id,
      int part,
      int site,
      Decision.OfSamples decision,
      String stepName,
      String actor,
      Analyst.Watch watch)
      throws IOException {
    OpenStudy before = open(id);
    Examination automatic = before.automatic();
    if (automatic == null) {
      throw new Refusal(409, "The study has no result yet to decide about.");
    }
    String key = siteKey(part, site);
    SiteSteps steps = SiteSteps.of(before.steps(), key).with(decision);
    watch.step("measuring site " + site(automatic, part, site).site() + " again", 0, 2);
    RecordingResult result =
        remeasured.measure(
            new Analyst.Known(before.declaration(), automatic), part, site, steps.ofSamples());
    if (watch.isCancelled()) {
      throw new java.util.concurrent.CancellationException("cancelled");
    }
    watch.step("judging the study", 1, 2);
    synchronized (this) {
      if (open(id).kept().revision() != before.kept().revision()) {
        throw new Refusal(
            409, "The study was changed while the site was measured: look at it and decide again.");
      }
      remeasured.keep(id, automatic, part, site, steps, result, decision.reason(), actor);
      store
          .studies()
          .steps()
          .decide(id, key, stepName, Json.text(Json.tree(decision)), decision.reason(), actor);
      return open(id);
    }
  }

  /** What each decision in force does to the comparison of its part. */
  List<Effects.Effect> effects(String id) throws IOException {
    return Effects.of(this, open(id));
  }

  /** The measurement a site rests on; empty for the automatic one. */
  public static String measurement(OpenStudy study, int part, int site) {
    return SiteSteps.of(study.steps(), siteKey(part, site)).measurement();
  }

  /** Numbers of steps that say something of an earlier measurement of the site. */
  public static List<Integer> setAside(OpenStudy study, int part, int site) {
    return SiteSteps.of(study.steps(), siteKey(part, site)).setAside();
  }

  /** A site of a result. */
  public static RecordingResult site(Examination examination, int part, int site) {
    if (part < 0
        || part >= examination.studies().size()
        || site < 0
        || site >= examination.studies().get(part).recordings().size()) {
      throw new Refusal(404, "The study has no such site.");
    }
    return Objects.requireNonNull(examination.studies().get(part).recordings().get(site));
  }
}
