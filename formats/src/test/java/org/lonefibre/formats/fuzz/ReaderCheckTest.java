package org.lonefibre.formats.fuzz;

import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.lonefibre.formats.writer.MadeRecording;
import org.lonefibre.signal.recording.RecordingFormatException;
import org.lonefibre.signal.recording.TimeBase;

/** The check of the fuzzer finds what it looks for. */
class ReaderCheckTest {

  @TempDir Path folder;

  private ReaderCheck check() {
    return new ReaderCheck(FuzzTarget.WAV, folder);
  }

  @Test
  void aGoodRecordingPasses() {
    assertThatCode(() -> check().inspect(MadeRecording.jitterStudy(9_000)))
        .doesNotThrowAnyException();
  }

  @ParameterizedTest
  @ValueSource(doubles = {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY})
  void aSampleThatIsNoNumberIsFound(double value) {
    double[] samples = new double[6_000];
    samples[5_000] = value;
    MadeRecording made = new MadeRecording().channel("A", new TimeBase(1, 1), samples, null);
    assertThatThrownBy(() -> check().inspect(made))
        .isInstanceOf(AssertionError.class)
        .hasMessage("sample 5000 is no number");
  }

  @Test
  void annotationsOutOfOrderOrWithoutATimeAreFound() {
    MadeRecording swapped = MadeRecording.jitterStudy(100).annotate(0.1, "early");
    assertThatThrownBy(() -> check().inspect(swapped)).isInstanceOf(AssertionError.class);
    MadeRecording timeless = MadeRecording.jitterStudy(100).annotate(Double.NaN, "never");
    assertThatThrownBy(() -> check().inspect(timeless)).isInstanceOf(AssertionError.class);
  }

  @Test
  void aRefusalOfAnotherFileOrWithoutAPlaceIsFound() throws IOException {
    ReaderCheck check = check();
    assertThatThrownBy(
            () -> check.refusal(new RecordingFormatException("other", "byte 1", "a", "b", "c")))
        .isInstanceOf(AssertionError.class);
    FuzzTarget.WAV.lay(folder, new byte[1]);
    assertThatThrownBy(
            () -> check.refusal(new RecordingFormatException("input", " ", "a", "b", "c")))
        .isInstanceOf(AssertionError.class);
    check.refusal(new RecordingFormatException("input", "byte\n1", "a\nb", "b\n", "\u0007c"));
  }
}
