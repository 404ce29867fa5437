package org.lonefibre.app.report;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.concurrent.Callable;
import org.lonefibre.analysis.study.Producer;
import org.lonefibre.app.sending.DestinationOptions;
import org.lonefibre.app.terminal.ExitCode;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.report.ReportFormat;
import org.lonefibre.report.ReportWriter;
import org.lonefibre.report.dicom.EncapsulatedPdf;
import org.lonefibre.report.dicom.Leaving;
import org.lonefibre.report.dicom.Pacs;
import org.lonefibre.report.dicom.PacsFault;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Sends a report to an archive of images, after it has shown what leaves this computer. */
@Command(
    name = "send",
    description = {
      "Sends the report of an analysis.json, or of a kept study, to a PACS as DICOM (STOW-RS).",
      "Shows what leaves this computer and asks first. No destination is set anywhere."
    })
@SuppressWarnings("NullAway.Init")
public final class SendCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;
  @Mixin private ResultOptions result;

  @Option(
      names = "--to",
      required = true,
      paramLabel = "URL",
      description = "Root of its DICOMweb service, such as http://pacs.example:8042/dicom-web.")
  private String to;

  @Option(names = "--yes", description = "Sends without asking.")
  private boolean yes;

  @Option(
      names = "--accession",
      paramLabel = "NUMBER",
      defaultValue = "",
      description = "Number of the order in the hospital's system; empty if not given.")
  private String accession;

  @Mixin private DestinationOptions destination;

  private final Producer producer;

  /**
   * @param producer the program, as documents name it
   */
  public SendCommand(Producer producer) {
    this.producer = producer;
  }

  @Override
  public Integer call() throws IOException {
    Pacs pacs = pacs();
    ResultOptions.Result named = result.read("send", producer);
    byte[] pdf =
        Objects.requireNonNull(
            new ReportWriter()
                .contents(
                    named.examination(),
                    named.closing(),
                    result.language(),
                    EnumSet.of(ReportFormat.PDF))
                .get("report.pdf"));
    EncapsulatedPdf report = report(named, pdf);
    PrintWriter out = spec.commandLine().getOut();
    show(out, Leaving.of(pacs, named.examination(), named.closing(), report));
    if (!yes && !agreed(out)) {
      throw new InputFault(
          "send", "", "the word yes", "something else", "nothing was sent; say yes, or give --yes");
    }
    String what = "DICOM " + report.instanceUid() + " to " + pacs.address();
    try {
      pacs.store(report);
    } catch (PacsFault e) {
      result.noteSending(what, "not confirmed: " + e.getMessage());
      throw new InputFault(
          "--to",
          "",
          "an archive that takes the report",
          String.valueOf(e.getMessage()),
          "nothing here was changed");
    }
    result.noteSending(what, "the archive says that it has it");
    out.println("sent: the archive says that it has " + report.instanceUid());
    out.flush();
    return ExitCode.DONE.number();
  }

  private Pacs pacs() throws IOException {
    return destination.pacs(to, "--to");
  }

  private EncapsulatedPdf report(ResultOptions.Result named, byte[] pdf) throws InputFault {
    try {
      return EncapsulatedPdf.of(named.examination(), named.closing(), pdf, accession.strip());
    } catch (IllegalArgumentException e) {
      throw new InputFault(
          "--accession",
          "",
          "at most 16 characters, no backslash and no control character",
          accession,
          "copy it from the order");
    }
  }

  private static void show(PrintWriter out, List<Leaving.Line> lines) {
    out.println("This would leave this computer:");
    for (Leaving.Line line : lines) {
      String value = line.value();
      out.println(
          String.format(
              Locale.ROOT, "  %-11s %s", line.name(), value == null ? "(not there)" : value));
    }
    out.println("and the whole report with its figures, names of files and decisions.");
    out.flush();
  }

  private static boolean agreed(PrintWriter out) throws IOException {
    out.print("Send it? Type yes to send: ");
    out.flush();
    BufferedReader answers =
        new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8));
    String answer = answers.readLine();
    return answer != null && answer.strip().equalsIgnoreCase("yes");
  }
}
