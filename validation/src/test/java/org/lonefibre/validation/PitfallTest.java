package org.lonefibre.validation;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lonefibre.analysis.study.EndPlateResult;
import org.lonefibre.model.simulation.RecordingTruth.FibreTruth;
import org.lonefibre.model.simulation.SimulatedRecording;
import org.lonefibre.validation.cases.Pitfall;
import org.lonefibre.validation.score.PitfallScore;

/**
 * Holds that the chain sees known pitfalls where they are and not where they are not, on a few
 * sites; docs/validation/findings.md has the rates.
 */
@Tag("regression")
class PitfallTest {

  @ParameterizedTest(name = "{0}: {1} of 4 or more")
  @CsvSource({
    "DOUBLETS, 3",
    "COMPONENT_BLOCKS, 3",
    "UNSTEADY_COMPONENT_BLOCKS, 3",
    "TRIGGER_BLOCKS, 3",
    "DIRECT, 4",
    "SECOND_FIBRE, 2",
    "WEAK_STIMULUS, 4",
    "AXON_REFLEX, 4",
    "UNSTEADY_TRIGGER, 3"
  })
  void aPitfallIsSeenWhereItIsAndNotWhereItIsNot(Pitfall pitfall, int least) {
    PitfallScore score = PitfallValidation.score(pitfall, 5, 4, List.of());
    assertThat(score.hits()).as("hits").isGreaterThanOrEqualTo(least);
    assertThat(score.falseAlarms()).as("false alarms").isZero();
  }

  /** Where one end-plate answers, a stimulus that nothing follows is a block all the same. */
  @Test
  void blocksOfALoneEndPlateAreCounted() {
    SimulatedRecording recording = Pitfall.WEAK_STIMULUS.simulateWithout(3);
    FibreTruth fibre = recording.truth().motorUnits().get(0).fibres().get(0);
    long blocked = fibre.arrivalTimesS().stream().skip(2).filter(Objects::isNull).count();
    EndPlateResult endPlate =
        Objects.requireNonNull(PitfallValidation.analyse(recording).stimulation())
            .endPlates()
            .get(0);
    assertThat(blocked).isGreaterThan(5);
    assertThat((long) endPlate.blockedSweeps()).isEqualTo(blocked);
    assertThat(endPlate.presentSweeps() + endPlate.blockedSweeps())
        .isEqualTo(fibre.arrivalTimesS().size() - 2);
  }
}
