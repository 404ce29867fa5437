package org.lonefibre.workbench.practice;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.EndPlateResult;
import org.lonefibre.analysis.study.MotorUnitResult;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.analysis.study.PotentialResult;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.StimulationResult;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.workbench.declaration.PitfallCase;
import org.lonefibre.workbench.server.Json;

/** A case of the library as a page shows it: first without any judgement, then with all of it. */
final class PitfallView {

  private PitfallView() {}

  /** What was measured sweep by sweep, and no word on it. */
  static ObjectNode unjudged(PitfallCase of) {
    RecordingResult site = of.site();
    ObjectNode view = Json.object();
    view.putObject("site").put("startS", site.startS()).put("endS", site.endS());
    view.put("samplingRateHz", site.samplingRateHz());
    view.put("noiseUv", site.noiseUv());
    view.put("isStimulated", site.stimulation() != null);
    ArrayNode units = view.putArray("units");
    for (MotorUnitResult one : units(site)) {
      ArrayNode signals = unit(units, one.id(), one.drawing(), one.potentials());
      for (PairResult pair : one.pairs()) {
        ObjectNode signal = signals.addObject();
        signal.put("id", pair.id()).put("triggerPotential", pair.triggerPotential());
        signal.put("sweeps", pair.sweeps()).put("presentSweeps", pair.presentSweeps());
        signal.put("meanIntervalUs", pair.meanIntervalUs());
        signal.set("intervals", Json.tree(pair.intervals()));
      }
    }
    StimulationResult stimulation = site.stimulation();
    if (stimulation != null) {
      ArrayNode signals = unit(units, "stimuli", stimulation.drawing(), stimulation.potentials());
      for (EndPlateResult plate : stimulation.endPlates()) {
        ObjectNode signal = signals.addObject();
        signal.put("id", plate.id());
        signal.put("sweeps", plate.sweeps()).put("presentSweeps", plate.presentSweeps());
        signal.put("meanLatencyUs", plate.meanLatencyUs());
        signal.set("latencies", Json.tree(plate.latencies()));
      }
    }
    return view;
  }

  private static List<MotorUnitResult> units(RecordingResult site) {
    return Objects.requireNonNullElse(site.motorUnits(), List.of());
  }

  private static ArrayNode unit(
      ArrayNode units, String id, @Nullable Object drawing, List<PotentialResult> potentials) {
    ObjectNode unit = units.addObject().put("id", id);
    unit.set("drawing", drawing == null ? null : Json.tree(drawing));
    ArrayNode list = unit.putArray("potentials");
    for (PotentialResult potential : potentials) {
      list.addObject().put("id", potential.id()).put("offsetMs", potential.offsetMs());
    }
    return unit.putArray("pairs");
  }

  /** All that the program says of it, each with what it is said of. */
  static ArrayNode findings(RecordingResult site) {
    ArrayNode all = Json.object().putArray("findings");
    add(all, "the recording", site.findings());
    for (MotorUnitResult unit : units(site)) {
      add(all, "unit " + unit.id(), unit.findings());
      unit.potentials().forEach(p -> add(all, "potential " + p.id(), p.findings()));
      unit.pairs().forEach(p -> add(all, "signal " + p.id(), p.findings()));
    }
    StimulationResult stimulation = site.stimulation();
    if (stimulation != null) {
      stimulation.potentials().forEach(p -> add(all, "potential " + p.id(), p.findings()));
      stimulation.endPlates().forEach(p -> add(all, "signal " + p.id(), p.findings()));
    }
    return all;
  }

  private static void add(ArrayNode all, String of, List<Finding> findings) {
    for (Finding finding : findings) {
      ObjectNode one = all.addObject();
      one.put("of", of);
      one.set("code", Json.tree(finding.code()));
      one.set("severity", Json.tree(finding.severity()));
      one.put("text", finding.text());
    }
  }
}
