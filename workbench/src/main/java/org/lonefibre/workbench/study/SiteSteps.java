package org.lonefibre.workbench.study;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.analysis.study.Decision;
import org.lonefibre.store.audit.Hash;
import org.lonefibre.store.studies.Step;
import org.lonefibre.workbench.server.Json;

/**
 * The decisions in force about one site, parted into those that need the samples and those taken
 * from what is kept.
 *
 * <p>What was said of potentials, signals and sweeps before the site was measured again was said of
 * another measurement: it is set aside until that step is undone. Stretches of time stay in force.
 *
 * @param ofSamples how the site is measured
 * @param ofKept what holds of that measurement
 * @param setAside numbers of the steps that are set aside
 */
record SiteSteps(
    List<Decision.OfSamples> ofSamples, List<Decision> ofKept, List<Integer> setAside) {

  SiteSteps {
    ofSamples = List.copyOf(ofSamples);
    ofKept = List.copyOf(ofKept);
    setAside = List.copyOf(setAside);
  }

  /**
   * @param steps those of the study
   * @param site as {@link Desk#siteKey}
   */
  static SiteSteps of(List<Step> steps, String site) {
    List<Decision.OfSamples> ofSamples = new ArrayList<>();
    List<Decision> kept = new ArrayList<>();
    List<Integer> numbers = new ArrayList<>();
    List<Integer> setAside = new ArrayList<>();
    for (Step step : steps) {
      if (!step.state().equals("active") || !step.site().equals(site)) {
        continue;
      }
      Decision decision = Json.read(step.content(), Decision.class);
      if (decision instanceof Decision.OfSamples more) {
        ofSamples.add(more);
        for (int i = kept.size() - 1; i >= 0; i--) {
          if (!(kept.get(i) instanceof Decision.Stretch)) {
            kept.remove(i);
            setAside.add(numbers.remove(i));
          }
        }
      } else {
        kept.add(decision);
        numbers.add(step.sequence());
      }
    }
    return new SiteSteps(ofSamples, kept, setAside);
  }

  SiteSteps with(Decision decision) {
    List<Decision.OfSamples> samples = new ArrayList<>(ofSamples);
    List<Decision> kept = new ArrayList<>(ofKept);
    if (decision instanceof Decision.OfSamples more) {
      samples.add(more);
      kept.removeIf(before -> !(before instanceof Decision.Stretch));
    } else {
      kept.add(decision);
    }
    return new SiteSteps(samples, kept, setAside);
  }

  /** What tells this measurement of a site from others; empty for the automatic one. */
  String measurement() {
    return ofSamples.isEmpty() ? "" : Hash.of(Json.text(Json.tree(ofSamples))).substring(0, 16);
  }
}
