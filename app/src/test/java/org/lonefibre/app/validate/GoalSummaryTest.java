package org.lonefibre.app.validate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.app.terminal.InputFault;

@Tag("contract")
class GoalSummaryTest {

  @TempDir Path folder;

  @Test
  void countsWhatThePagesSay() throws IOException {
    Files.writeString(
        folder.resolve("grading.md"),
        """
        # One fibre or two

        ## With goals

        | condition | AUC | goal | met |
        |---|---|---|---|
        | SNR 20 | 0.99 | 0.95 | yes |
        | SNR 10 | 0.90 | 0.95 | **no** |
        | SNR 5 | 0.80 |  |  |

        ## Without

        | condition | value |
        |---|---|
        | yes | yes |
        """);
    String page = new GoalSummary(folder).markdown();
    assertThat(page)
        .contains("**Goals met: 1 of 2.**")
        .contains("| [One fibre or two](grading.md) | With goals | 2 | 1 |")
        .doesNotContain("SNR 5");
    assertThat(page.indexOf("SNR 10"))
        .isBetween(page.indexOf("## Not met"), page.indexOf("## Met"));
  }

  @Test
  void aFolderWithoutPagesIsRefused() {
    assertThatThrownBy(() -> new GoalSummary(folder))
        .isInstanceOf(InputFault.class)
        .hasMessageContaining("pages of campaigns");
  }
}
