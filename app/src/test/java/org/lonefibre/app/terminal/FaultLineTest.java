package org.lonefibre.app.terminal;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.NoSuchFileException;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.lonefibre.signal.recording.RecordingFormatException;

@Tag("contract")
final class FaultLineTest {

  @Test
  void whatAPersonCanMendEndsWithTwo() {
    assertThat(
            List.of(
                new InputFault("f", "p", "e", "g", "r"),
                new RecordingFormatException("f", "p", "e", "g", "r"),
                new NoSuchFileException("f"),
                new FileAlreadyExistsException("f"),
                new IOException("disk")))
        .allSatisfy(
            failure ->
                assertThat(FaultLine.of(failure).exitCode()).isEqualTo(ExitCode.INPUT_AT_FAULT));
    assertThat(FaultLine.of(new InputFault("f", "p", "e", "g", "r")).text())
        .isEqualTo("f: p: expected e, found g; r");
  }

  @Test
  void aFaultOfOursSaysSo() {
    FaultLine line = FaultLine.of(new IllegalStateException("two\nlines"));
    assertThat(line.exitCode()).isEqualTo(ExitCode.OUR_FAULT);
    assertThat(line.text()).contains("--debug").contains("two lines").doesNotContain("\n");
    assertThat(FaultLine.of(new OutOfMemoryError()).text()).contains("-Xmx");
  }

  @Test
  void textOfAFileCannotMoveTheCursor() {
    assertThat(FaultLine.oneLine("a\u001b[2Jb\u0007\u202ec")).isEqualTo("a\\x1b[2Jb\\x07\\x202ec");
    assertThat(FaultLine.oneLine("x".repeat(5000))).hasSize(1000);
  }

  @Test
  void theNearestWordIsOfferedOnlyIfItIsNear() {
    List<String> known = List.of("voluntary", "stimulated");
    assertThat(Nearest.find("volontary", known)).contains("voluntary");
    assertThat(Nearest.find("Stimulate", known)).contains("stimulated");
    assertThat(Nearest.find("zzz", known)).isEmpty();
    assertThat(Nearest.advice("zzz", known)).isEqualTo("give one of voluntary, stimulated");
  }
}
