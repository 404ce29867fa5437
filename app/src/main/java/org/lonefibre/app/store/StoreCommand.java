package org.lonefibre.app.store;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.lonefibre.app.terminal.ExitCode;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.store.Store;
import org.lonefibre.store.studies.KeptStudy;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Lists, backs up, restores and verifies the kept studies. */
@Command(name = "store", description = "The kept studies: list, backup, restore, verify.")
@SuppressWarnings("NullAway.Init")
public final class StoreCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws InputFault {
    throw new InputFault("store", "", "list, backup, restore or verify", "nothing", "name one");
  }

  private int say(String line) {
    spec.commandLine().getOut().println(line);
    spec.commandLine().getOut().flush();
    return ExitCode.DONE.number();
  }

  @Command(name = "list", description = "Lists the kept studies.")
  int list(@Mixin DataOptions data) throws IOException {
    try (Store store = data.open()) {
      for (KeptStudy study : store.studies().list("")) {
        say(study.id() + "  " + study.changedAt() + "  " + study.state() + "  " + study.title());
      }
      return ExitCode.DONE.number();
    }
  }

  @Command(name = "backup", description = "Writes everything that is kept into one file.")
  int backup(
      @Mixin DataOptions data,
      @Parameters(paramLabel = "FILE.zip", description = "The backup.") Path file)
      throws IOException {
    try (Store store = data.open()) {
      store.backup(file.toAbsolutePath());
    }
    return say("written to " + file);
  }

  @Command(
      name = "restore",
      description =
          "Fills an empty data folder from a backup, or with --snapshot brings back the last good"
              + " state of a damaged one.")
  int restore(
      @Mixin DataOptions data,
      @Parameters(arity = "0..1", paramLabel = "FILE.zip", description = "The backup.")
          @Nullable Path file,
      @Option(names = "--snapshot", description = "Bring back the last good state.")
          boolean snapshot)
      throws IOException {
    if (snapshot == (file != null)) {
      throw new InputFault("restore", "", "a backup or --snapshot", "both or neither", "give one");
    }
    if (file == null) {
      return say("brought back " + Store.restoreSnapshot(data.folder()).getFileName());
    }
    Store.restore(file, data.folder(), data.database(), Clock.systemUTC());
    return say("restored into " + data.folder());
  }

  @Command(name = "verify", description = "Compares everything kept with its hashes and seals.")
  int verify(@Mixin DataOptions data) throws IOException {
    try (Store store = data.open()) {
      List<String> wrong = store.verify();
      wrong.forEach(this::say);
      if (wrong.isEmpty()) {
        return say("all is as it was kept");
      }
      return ExitCode.INPUT_AT_FAULT.number();
    }
  }
}
