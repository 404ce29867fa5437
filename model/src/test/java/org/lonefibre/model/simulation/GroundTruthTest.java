package org.lonefibre.model.simulation;

import static org.assertj.core.api.Assertions.assertThat;

import java.lang.reflect.RecordComponent;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

final class GroundTruthTest {

  private static List<String> components(Class<?> type) {
    return Arrays.stream(type.getRecordComponents()).map(RecordComponent::getName).toList();
  }

  @Test
  @Tag("contract")
  void componentsAreTheNamesOfTheTruthDocument() {
    assertThat(components(GroundTruth.class))
        .containsExactly("schema", "seed", "needle", "muscle", "recordings");
    assertThat(components(RecordingTruth.class))
        .containsExactly("file", "samplingRateHz", "noiseUv", "motorUnits", "stimulation");
    assertThat(components(RecordingTruth.MotorUnitTruth.class))
        .containsExactly("id", "dischargeTimesS", "fibres", "pairs");
    assertThat(components(RecordingTruth.FibreTruth.class))
        .containsExactly(
            "id",
            "distanceMm",
            "diameterUm",
            "velocityMPerS",
            "amplitudeUv",
            "arrivalTimesS",
            "endPlateJitterUs");
    assertThat(components(RecordingTruth.PairTruth.class))
        .containsExactly(
            "trigger",
            "paired",
            "meanConsecutiveDifferenceUs",
            "expectedJitterUs",
            "blockingPercent",
            "contaminatedBy");
    assertThat(components(RecordingTruth.StimulationTruth.class))
        .containsExactly("stimulusTimesS", "endPlates");
    assertThat(components(RecordingTruth.EndPlateTruth.class))
        .containsExactly(
            "fibre", "meanConsecutiveDifferenceUs", "expectedJitterUs", "blockingPercent");
  }
}
