package org.lonefibre.app.report;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.EnumSet;
import java.util.Locale;
import java.util.Objects;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.Producer;
import org.lonefibre.analysis.study.Visit;
import org.lonefibre.app.terminal.ExitCode;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.report.ReportFormat;
import org.lonefibre.report.ReportWriter;
import org.lonefibre.report.dicom.EncapsulatedPdf;
import org.lonefibre.report.dicom.Pacs;
import org.lonefibre.report.dicom.PacsFault;
import org.lonefibre.report.document.Closing;
import org.lonefibre.report.document.Words;
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
      names = "--wait-s",
      paramLabel = "S",
      defaultValue = "60",
      description = "Seconds to wait for its answer, 1 to 600; 60 if not given.")
  private int waitS;

  private final Producer producer;

  /**
   * @param producer the program, as documents name it
   */
  public SendCommand(Producer producer) {
    this.producer = producer;
  }

  @Override
  public Integer call() throws IOException {
    URI address = address();
    Pacs pacs = pacs(address);
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
    EncapsulatedPdf report = EncapsulatedPdf.of(named.examination(), named.closing(), pdf);
    PrintWriter out = spec.commandLine().getOut();
    show(out, address, named.examination(), named.closing(), report);
    if (!yes && !agreed(out)) {
      throw new InputFault(
          "send", "", "the word yes", "something else", "nothing was sent; say yes, or give --yes");
    }
    try {
      pacs.store(report);
    } catch (PacsFault e) {
      throw new InputFault(
          "--to",
          "",
          "an archive that takes the report",
          String.valueOf(e.getMessage()),
          "nothing here was changed");
    }
    out.println("sent: the archive says that it has " + report.instanceUid());
    out.flush();
    return ExitCode.DONE.number();
  }

  private URI address() throws InputFault {
    try {
      return URI.create(to.strip());
    } catch (IllegalArgumentException e) {
      throw notAnAddress();
    }
  }

  private Pacs pacs(URI address) throws InputFault {
    if (waitS < 1 || waitS > 600) {
      throw new InputFault(
          "--wait-s", "", "1 to 600", Integer.toString(waitS), "give a time in seconds");
    }
    try {
      return new Pacs(address, Duration.ofSeconds(waitS));
    } catch (IllegalArgumentException e) {
      throw notAnAddress();
    }
  }

  /** Without the address: it might hold a password. */
  private static InputFault notAnAddress() {
    return new InputFault(
        "--to",
        "",
        "the http or https root of a DICOMweb service without user name, query or fragment",
        "something else",
        "write it as http://pacs.example:8042/dicom-web");
  }

  private static void show(
      PrintWriter out,
      URI address,
      Examination examination,
      Closing closing,
      EncapsulatedPdf report) {
    Visit visit = examination.visit();
    out.println("This would leave this computer:");
    line(out, "to", address + " (" + way(address) + ")");
    line(out, "object", "DICOM Encapsulated PDF, " + report.file().length + " bytes");
    line(out, "identity", report.instanceUid());
    line(
        out,
        "state",
        closing.state() == null ? "automatic result, not signed" : closing.standing(Words.ENGLISH));
    line(out, "subject", examination.subject().code());
    Double ageYears = examination.subject().ageYears();
    line(out, "age", ageYears == null ? null : ageYears + " years");
    line(out, "visit", visit.date());
    line(out, "examiner", visit.examiner());
    line(out, "medication", visit.medication());
    line(out, "note", visit.note());
    line(out, "studies", Integer.toString(examination.studies().size()));
    line(out, "comment", closing.comment());
    line(out, "conclusion", closing.conclusion());
    Closing.Seal seal = closing.seal();
    line(out, "signed by", seal == null ? null : seal.signer());
    out.println("and the whole report with its figures, names of files and decisions.");
    out.flush();
  }

  private static void line(PrintWriter out, String name, @Nullable String value) {
    String text = value == null || value.isBlank() ? "(not there)" : value;
    out.println(
        String.format(
            Locale.ROOT, "  %-11s %s", name, text.replaceAll("[\\p{Cc}\\p{Cf}\\s]+", " ").strip()));
  }

  private static String way(URI address) {
    if ("https".equalsIgnoreCase(address.getScheme())) {
      return "encrypted on its way";
    }
    String host = String.valueOf(address.getHost());
    boolean here = host.equals("localhost") || host.equals("[::1]") || host.startsWith("127.");
    return here ? "this computer" : "NOT encrypted on its way";
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
