package org.lonefibre.app.inspect;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Producer;
import org.lonefibre.analysis.study.Refusal;
import org.lonefibre.app.recording.ReadingOptions;
import org.lonefibre.app.recording.RecordingDoor;
import org.lonefibre.app.terminal.DocumentJson;
import org.lonefibre.app.terminal.ExitCode;
import org.lonefibre.app.terminal.FaultLine;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.app.terminal.Progress;
import org.lonefibre.app.terminal.Refusals;
import org.lonefibre.app.terminal.WholeFile;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Shows what was read, so that a person sees what a file is and why one is refused. */
@Command(
    name = "inspect",
    description = {
      "Shows what is read from recordings: format, start, signals with exact rate, unit, step and"
          + " range, gaps, annotations, sites, and what was noticed.",
      "Files that cannot be read are listed with the reason; the others are shown."
    },
    footer = {
      "",
      "With --out the folder receives inspection.json and for each file a picture of its signals"
          + " (SVG)."
    })
@SuppressWarnings("NullAway.Init")
public final class InspectCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Parameters(arity = "1..*", paramLabel = "FILE", description = "Recordings.")
  private List<Path> files = List.of();

  @Mixin private ReadingOptions reading;

  @Option(names = "--out", paramLabel = "DIR", description = "Folder for document and pictures.")
  private @Nullable Path out;

  @Option(
      names = "--json",
      paramLabel = "-",
      description = "With -, print inspection.json to standard output and nothing else.")
  private @Nullable String json;

  private final Producer producer;
  private final Set<String> pictures = new HashSet<>();

  /**
   * @param producer the program, as documents name it
   */
  public InspectCommand(Producer producer) {
    this.producer = producer;
  }

  @Override
  public Integer call() throws IOException {
    if (json != null && !json.equals("-")) {
      throw new InputFault(
          "--json", "", "-, for standard output", json, "use --out DIR to write files");
    }
    RecordingDoor door = reading.door();
    if (out != null) {
      Files.createDirectories(out);
    }
    List<Inspection.File> seen = new ArrayList<>();
    List<Refusal> refused = new ArrayList<>();
    ExitCode fault = ExitCode.DONE;
    PrintWriter err = spec.commandLine().getErr();
    try (Progress progress = Progress.begin("inspect", files.size())) {
      for (Path path : files) {
        try {
          seen.add(look(new Inspector(door), path));
        } catch (IOException | RuntimeException | OutOfMemoryError | StackOverflowError e) {
          FaultLine line = FaultLine.of(e);
          refused.add(Refusals.of(String.valueOf(path.getFileName()), e));
          err.println("lonefibre: " + line.text());
          fault = line.exitCode() == ExitCode.OUR_FAULT ? ExitCode.OUR_FAULT : fault;
        }
        progress.step();
      }
    }
    err.flush();
    write(new Inspection(Inspection.SCHEMA, producer, seen, refused));
    if (fault == ExitCode.OUR_FAULT || refused.isEmpty()) {
      return fault.number();
    }
    return (seen.isEmpty() ? ExitCode.INPUT_AT_FAULT : ExitCode.SOME_REFUSED).number();
  }

  private Inspection.File look(Inspector inspector, Path path) throws IOException {
    Inspector.Seen seen = inspector.inspect(path);
    if (out != null) {
      WholeFile.write(
          out.resolve(picture(seen.file().file())),
          (seen.picture().svg() + "\n").getBytes(StandardCharsets.UTF_8));
    }
    if (json == null) {
      PrintWriter text = spec.commandLine().getOut();
      InspectionText.lines(seen.file()).forEach(text::println);
      text.flush();
    }
    return seen.file();
  }

  /**
   * A name for the picture that no other has, without characters that mean something to a shell.
   */
  private String picture(String file) {
    String plain = file.replaceAll("[^A-Za-z0-9._-]", "_");
    String name = plain + ".svg";
    for (int n = 2; !pictures.add(name.toLowerCase(Locale.ROOT)); n++) {
      name = plain + "-" + n + ".svg";
    }
    return name;
  }

  private void write(Inspection inspection) throws IOException {
    if (out != null) {
      WholeFile.write(out.resolve("inspection.json"), DocumentJson.bytes(inspection));
    }
    if (json != null) {
      DocumentJson.print(inspection);
    }
  }
}
