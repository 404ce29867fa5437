package org.lonefibre.app.limits;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.app.CommandRun;
import org.lonefibre.store.Store;

class LimitsCommandTest {

  @TempDir Path folder;

  private Path file(String line) throws IOException {
    return Files.writeString(
        folder.resolve("own.csv"),
        "set_id,set_name,muscle,needles,activation,centre_statistic,centre_limit_us,"
            + "individual_limit_us,source\n"
            + line
            + "\n");
  }

  @Test
  void everyRowIsListedAndThoseFromMemoryAreMarkedOff() {
    CommandRun run = CommandRun.of("limits", "list", "--muscle", "deltoid");
    assertThat(run.exitCode()).isZero();
    assertThat(run.output())
        .contains("off: from memory: read the printed source, then confirm")
        .contains("Gilchrist et al. 1992");
    CommandRun confirmed =
        CommandRun.of(
            "limits", "list", "--confirm-limits", "sf-voluntary-1992/deltoid=reprint, table 2");
    assertThat(confirmed.output()).contains("from memory, confirmed by").contains("table 2");
  }

  @Test
  void aFileOfTheLaboratoryIsKeptConfirmedAndChosenAndEachDecisionIsOnRecord() throws IOException {
    Path own = file("own-lab-1,ours,ED,concentric-small,voluntary,mean,30,42,own controls 2024");
    Path data = folder.resolve("data");
    assertThat(CommandRun.of("limits", "check", own).output()).contains("1 rows of own-lab-1");
    assertThat(CommandRun.of("limits", "add", own, "--reason", "new", "--data", data).exitCode())
        .isZero();
    assertThat(
            CommandRun.of(
                    "limits",
                    "confirm",
                    "sf-voluntary-1992",
                    "--muscle",
                    "deltoid",
                    "--read",
                    "reprint, table 2",
                    "--data",
                    data)
                .exitCode())
        .isZero();
    assertThat(
            CommandRun.of(
                    "limits",
                    "choose",
                    "own-lab-1",
                    "--muscle",
                    "ED",
                    "--needle",
                    "concentric-small",
                    "--activation",
                    "voluntary",
                    "--reason",
                    "our needle",
                    "--data",
                    data)
                .exitCode())
        .isZero();
    try (Store store = Store.open(data, null, Clock.systemUTC())) {
      assertThat(store.limits().laboratory().files()).hasSize(1);
      assertThat(store.limits().laboratory().choices()).hasSize(1);
      assertThat(store.listChanges("", 10))
          .filteredOn(change -> change.subject().equals("limits"))
          .extracting(change -> change.reason())
          .containsExactly("our needle", "reprint, table 2", "new");
      assertThat(store.verify()).isEmpty();
    }
    CommandRun list = CommandRun.of("limits", "list", "--laboratory", "--data", data);
    assertThat(list.output()).contains("own-lab-1").contains("confirmed by");
    CommandRun unknown =
        CommandRun.of("limits", "confirm", "cn-japan-2012", "--read", "print", "--data", data);
    assertThat(unknown.exitCode()).isEqualTo(2);
    assertThat(unknown.errors()).hasLineCount(1).contains("from memory");
  }

  @Test
  void aBadFileIsOneLineWithItsPlace() throws IOException {
    CommandRun run =
        CommandRun.of(
            "limits", "check", file("own-lab-1,ours,ED,concentric-small,voluntary,mean,-3,42,own"));
    assertThat(run.exitCode()).isEqualTo(2);
    assertThat(run.errors())
        .hasLineCount(1)
        .contains("own.csv: line 2, centre_limit_us: expected a number of 1 to 1000 us, found -3");
    CommandRun twice =
        CommandRun.of("limits", "list", "--confirm-limits", "sf-voluntary-1992/deltoid");
    assertThat(twice.exitCode()).isEqualTo(2);
    assertThat(twice.errors()).hasLineCount(1).contains("what was read");
  }
}
