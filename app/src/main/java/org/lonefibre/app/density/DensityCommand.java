package org.lonefibre.app.density;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.concurrent.Callable;
import org.lonefibre.analysis.density.FibreDensity;
import org.lonefibre.analysis.reference.WrittenTable;
import org.lonefibre.app.terminal.ExitCode;
import org.lonefibre.app.terminal.InputFault;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Fibre density of sites chosen at random. */
@Command(
    name = "density",
    description = {
      "Fibre density with a single-fibre electrode: a line a site, chosen at random, with the number"
          + " of time-locked potentials, the trigger among them: columns site, potentials and, if"
          + " need be, chosen (random or jitter).",
      "Sites chosen for jitter are selected and left out."
    })
@SuppressWarnings("NullAway.Init")
public final class DensityCommand implements Callable<Integer> {

  private static final String NEEDLE = "single-fibre";

  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "FILE.csv", description = "Sites and their potentials.")
  private Path file;

  @Option(names = "--needle", required = true, paramLabel = "NEEDLE", description = "single-fibre.")
  private String needle;

  @Override
  public Integer call() throws IOException {
    if (!needle.equals(NEEDLE)) {
      throw new InputFault(
          "--needle",
          "",
          NEEDLE,
          needle,
          "fibre density has no meaning with another needle: its uptake is wider");
    }
    WrittenTable table =
        WrittenTable.of(
            String.valueOf(file.getFileName()),
            new String(Files.readAllBytes(file), StandardCharsets.UTF_8),
            List.of("site", "potentials"),
            List.of("chosen"));
    List<Integer> potentials = new ArrayList<>();
    Set<String> sites = new HashSet<>();
    int selected = 0;
    for (int i = 0; i < table.size(); i++) {
      String site = table.required(i, "site");
      if (!sites.add(site)) {
        throw table.fault(i, "site", "each site once", site + " again", "keep one line");
      }
      Double count = table.number(i, "potentials", 1, 40, "potentials");
      if (count == null || count != Math.rint(count)) {
        throw table.fault(
            i,
            "potentials",
            "a whole number",
            table.text(i, "potentials").isEmpty() ? "nothing" : table.text(i, "potentials"),
            "count the potentials, the trigger among them");
      }
      if (table.text(i, "chosen").equals("jitter")) {
        selected++;
      } else {
        potentials.add((int) Math.round(count));
      }
    }
    if (potentials.isEmpty()) {
      throw table.fault(0, "chosen", "a site chosen at random", "none", "record some");
    }
    say(FibreDensity.of(potentials), selected);
    return ExitCode.DONE.number();
  }

  private void say(FibreDensity density, int selected) {
    List<String> lines = new ArrayList<>();
    lines.add(
        String.format(
            Locale.ROOT,
            "fibre density %.2f potentials a site, %d sites%s",
            density.potentialsPerSite(),
            density.sites(),
            density
                .interval()
                .map(
                    i ->
                        String.format(
                            Locale.ROOT, ", 95 %% interval %.2f to %.2f", i.low(), i.high()))
                .orElse("; no interval from one site")));
    if (selected > 0) {
      lines.add("  left out, chosen for jitter: " + selected);
    }
    density.notes().forEach(note -> lines.add("  " + note));
    lines.forEach(spec.commandLine().getOut()::println);
    spec.commandLine().getOut().flush();
  }
}
