package org.lonefibre.app.limits;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.reference.LimitCatalogue;
import org.lonefibre.analysis.reference.LimitChoice;
import org.lonefibre.analysis.reference.LimitFile;
import org.lonefibre.analysis.reference.LimitSettings;
import org.lonefibre.analysis.reference.PublishedLimit;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.app.store.DataOptions;
import org.lonefibre.app.terminal.ExitCode;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.report.document.AnalysisJson;
import org.lonefibre.store.Store;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Shows the limit sets, compares what each would say, and records what a laboratory decides. */
@Command(
    name = "limits",
    description = "The limit sets: list, compare, check, add, withdraw, confirm, choose.")
@SuppressWarnings("NullAway.Init")
public final class LimitsCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws InputFault {
    throw new InputFault(
        "limits",
        "",
        "list, compare, check, add, withdraw, confirm or choose",
        "nothing",
        "name one");
  }

  private int say(List<String> lines) {
    lines.forEach(spec.commandLine().getOut()::println);
    spec.commandLine().getOut().flush();
    return ExitCode.DONE.number();
  }

  @Command(name = "list", description = "Every row of every set, with status and source.")
  int list(
      @Option(names = "--muscle", paramLabel = "MUSCLE", description = "One muscle only.")
          @Nullable String muscle,
      @Mixin LaboratoryOptions laboratory,
      @Mixin DataOptions data)
      throws IOException {
    String key = LaboratoryOptions.findMuscle(muscle);
    List<List<String>> rows = new ArrayList<>();
    rows.add(
        List.of("set", "muscle", "needles", "activation", "age", "centre", "single", "status"));
    List<String> sources = new ArrayList<>();
    for (PublishedLimit row : catalogue(laboratory, data).listPublished()) {
      if (key != null && !row.muscle().contains(key)) {
        continue;
      }
      rows.add(
          List.of(
              row.set(),
              row.muscle(),
              String.join("; ", row.needles()),
              row.activation().name().toLowerCase(Locale.ROOT),
              row.fromAgeYears() == null ? "-" : row.fromAgeYears().toString(),
              row.centreUs() == null ? "none" : row.centreStatistic() + " " + row.centreUs(),
              row.individualUs() == null ? "blank" : row.individualUs().toString(),
              row.use().equals("on") ? row.status() : row.use()));
      String source = row.set() + ": " + row.source();
      if (!sources.contains(source)) {
        sources.add(source);
      }
    }
    List<String> lines = new ArrayList<>(Columns.of(rows));
    lines.add("");
    lines.addAll(sources);
    return say(lines);
  }

  @Command(
      name = "compare",
      description = "What every set that holds for a study would say of it, side by side.")
  int compare(
      @Parameters(paramLabel = "analysis.json", description = "An analysis.") Path file,
      @Mixin LaboratoryOptions laboratory,
      @Mixin DataOptions data)
      throws IOException {
    Examination examination = AnalysisJson.read(file);
    return say(
        new ComparisonText(LimitSettings.defaults(), laboratory.limits(false, data))
            .lines(examination));
  }

  @Command(name = "check", description = "Checks a file of limit sets and keeps nothing.")
  int check(@Parameters(paramLabel = "FILE.csv", description = "The file.") Path file)
      throws IOException {
    return say(List.of(described(LimitFile.read(file))));
  }

  @Command(
      name = "add",
      description = "Keeps a file of limit sets; one of the same name is replaced.")
  int add(
      @Parameters(paramLabel = "FILE.csv", description = "The file.") Path file,
      @Option(names = "--reason", required = true, paramLabel = "WHY", description = "Why.")
          String reason,
      @Mixin DataOptions data)
      throws IOException {
    LimitFile limits = LimitFile.read(file);
    decide(data, store -> store.limits().keep(limits, reason, actor()));
    return say(List.of("kept: " + described(limits)));
  }

  @Command(name = "withdraw", description = "Uses a kept file of limit sets no more.")
  int withdraw(
      @Parameters(paramLabel = "FILE.csv", description = "Its name.") String name,
      @Option(names = "--reason", required = true, paramLabel = "WHY", description = "Why.")
          String reason,
      @Mixin DataOptions data)
      throws IOException {
    decide(
        data,
        store -> {
          if (store.limits().laboratory().files().stream()
              .noneMatch(file -> file.name().equals(name))) {
            throw new IllegalArgumentException("a file that is kept, found " + name);
          }
          store.limits().withdrawFile(name, reason, actor());
        });
    return say(List.of("withdrawn: " + name));
  }

  @Command(
      name = "confirm",
      description = "Records that rows from memory were read in the printed source.")
  int confirm(
      @Parameters(paramLabel = "SET", description = "Limit set.") String set,
      @Option(names = "--muscle", paramLabel = "MUSCLE", description = "One muscle only.")
          @Nullable String muscle,
      @Option(
              names = "--read",
              required = true,
              paramLabel = "WHAT",
              description = "What was read: edition, page, table.")
          String read,
      @Mixin DataOptions data)
      throws IOException {
    String key = LaboratoryOptions.findMuscle(muscle);
    decide(data, store -> store.limits().confirm(set, key, read, actor()));
    return say(
        List.of(
            "confirmed: "
                + set
                + ": "
                + LimitCatalogue.load(LimitSettings.defaults()).confirmable(set, key)));
  }

  @Command(name = "choose", description = "Records which set is used where several fit.")
  int choose(
      @Parameters(paramLabel = "SET", description = "Limit set.") String set,
      @Option(names = "--muscle", required = true, description = "Muscle.") String muscle,
      @Option(names = "--needle", required = true, description = "Needle.") String needle,
      @Option(names = "--activation", required = true, description = "voluntary or stimulated.")
          Activation activation,
      @Option(names = "--reason", required = true, paramLabel = "WHY", description = "Why.")
          String reason,
      @Mixin DataOptions data)
      throws IOException {
    LimitChoice choice = new LimitChoice(LaboratoryOptions.muscle(muscle), needle, activation, set);
    decide(
        data,
        store -> {
          List<String> sets =
              LimitCatalogue.load(LimitSettings.defaults(), store.limits().laboratory()).listSets();
          if (!sets.contains(set)) {
            throw new IllegalArgumentException(
                "one of " + String.join(", ", sets) + ", found " + set);
          }
          store.limits().choose(choice, reason, actor());
        });
    return say(List.of("chosen: " + set + " for " + choice.muscle() + ", " + needle));
  }

  private interface Decision {
    void take(Store store) throws IOException;
  }

  private static void decide(DataOptions data, Decision decision) throws IOException {
    try (Store store = data.open()) {
      decision.take(store);
    } catch (IllegalArgumentException e) {
      throw new InputFault(
          "limits",
          "",
          "a decision that can be kept",
          String.valueOf(e.getMessage()),
          "lonefibre limits list shows what there is");
    }
  }

  private static String actor() {
    return System.getProperty("user.name");
  }

  private static String described(LimitFile file) {
    return file.name() + ", " + file.size() + " rows of " + String.join(", ", file.listSets());
  }

  private static LimitCatalogue catalogue(LaboratoryOptions laboratory, DataOptions data)
      throws IOException {
    try {
      return LimitCatalogue.load(LimitSettings.defaults(), laboratory.limits(false, data));
    } catch (IllegalArgumentException e) {
      throw new InputFault(
          "limits",
          "",
          "limits of the laboratory that go together",
          String.valueOf(e.getMessage()),
          "correct the files or confirmations");
    }
  }
}
