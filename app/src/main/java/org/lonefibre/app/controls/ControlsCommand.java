package org.lonefibre.app.controls;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.controls.Control;
import org.lonefibre.analysis.controls.ControlFile;
import org.lonefibre.analysis.controls.ControlGroup;
import org.lonefibre.analysis.controls.ControlLimits;
import org.lonefibre.analysis.controls.ControlMethod;
import org.lonefibre.analysis.controls.LimitTransfer;
import org.lonefibre.analysis.controls.OwnLimit;
import org.lonefibre.analysis.controls.ReferralPlateau;
import org.lonefibre.analysis.controls.VolunteerStudies;
import org.lonefibre.analysis.reference.LimitFile;
import org.lonefibre.analysis.study.Producer;
import org.lonefibre.app.declaration.SettingsInForce;
import org.lonefibre.app.limits.Columns;
import org.lonefibre.app.store.DataOptions;
import org.lonefibre.app.terminal.ExitCode;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.app.terminal.WholeFile;
import org.lonefibre.store.Store;
import org.lonefibre.workbench.study.Volunteers;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Limits of a laboratory's own from its controls, or from its referrals. */
@Command(
    name = "controls",
    description = {
      "Takes reference limits from healthy volunteers, kept in the store (--kept) or a line a"
          + " signal: subject, age_years, muscle,"
          + " needle, activation, signal, jitter_us, grading_version.",
      "With --verify CENTRE,SINGLE asks 20 of them whether they bear out limits of others; with"
          + " --referrals extrapolates from consecutive ordinary referrals."
    })
@SuppressWarnings("NullAway.Init")
public final class ControlsCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Parameters(arity = "0..1", paramLabel = "FILE.csv", description = "Controls, or referrals.")
  private @Nullable Path file;

  @Option(
      names = "--kept",
      description =
          "In place of a file, the kept studies marked as of healthy volunteers; the signals the"
              + " program accepted, with the grading as it is now.")
  private boolean kept;

  @Mixin private DataOptions data;

  @Option(
      names = "--method",
      paramLabel = "METHOD",
      defaultValue = "robust",
      description =
          "Method of the written limits: mean-2-sd, mean-2-5-sd, nonparametric, robust (robust).")
  private String method;

  @Option(
      names = "--centre",
      paramLabel = "WHAT",
      defaultValue = "mean",
      description = "mean or median of the signals of a subject (mean).")
  private String centre;

  @Option(
      names = "--set",
      paramLabel = "SET_ID",
      defaultValue = "own-controls",
      description = "Identity of the written set (own-controls).")
  private String set;

  @Option(
      names = "--out",
      paramLabel = "FILE.csv",
      description = "Write the limits as a file for limits add.")
  private @Nullable Path out;

  @Option(
      names = "--verify",
      paramLabel = "CENTRE,SINGLE",
      split = ",",
      description = "Limits in us to be verified with 20 controls.")
  private double @Nullable [] verify;

  @Option(
      names = "--referrals",
      description = "The file holds consecutive referrals: extrapolate from the plateau.")
  private boolean referrals;

  private final Producer producer;

  /**
   * @param producer the program, as documents name it
   */
  public ControlsCommand(Producer producer) {
    this.producer = producer;
  }

  @Override
  public Integer call() throws IOException {
    ControlMethod chosen = method();
    if (!centre.equals("mean") && !centre.equals("median")) {
      throw new InputFault("--centre", "", "mean or median", centre, "give one of them");
    }
    if (verify != null && verify.length != 2) {
      throw new InputFault(
          "--verify", "", "two numbers, as 31,45", verify.length + " numbers", "give both");
    }
    List<String> lines = new ArrayList<>();
    List<Control> controls = controls(lines);
    List<ControlGroup> groups = ControlLimits.of(controls);
    for (ControlGroup group : groups) {
      lines.add(title(group));
      List<Control> own = controls.stream().filter(c -> belongs(c, group)).toList();
      if (referrals) {
        addPlateau(own, lines);
      } else if (verify != null) {
        addVerification(own, verify, lines);
      } else {
        addLimits(group, lines);
      }
    }
    Path target = out;
    if (target != null) {
      if (referrals || verify != null) {
        throw new InputFault(
            "--out", "", "limits from controls", "another question", "leave --out away");
      }
      WrittenLimits written = new WrittenLimits(set, centre, chosen, controls);
      byte[] text = written.text(groups).getBytes(java.nio.charset.StandardCharsets.UTF_8);
      LimitFile.of(
          String.valueOf(target.getFileName()),
          new String(text, java.nio.charset.StandardCharsets.UTF_8));
      WholeFile.write(target, text);
      lines.add("written to " + target + "; limits add keeps it");
    }
    lines.forEach(spec.commandLine().getOut()::println);
    spec.commandLine().getOut().flush();
    return ExitCode.DONE.number();
  }

  private List<Control> controls(List<String> lines) throws IOException {
    Path from = file;
    if ((from == null) != kept || (kept && referrals)) {
      throw new InputFault(
          "controls",
          "",
          "a file, or --kept without --referrals",
          from == null ? "neither" : "both",
          "name one; referrals are not marked in the store");
    }
    if (from != null) {
      return ControlFile.read(from);
    }
    try (Store store = data.open()) {
      VolunteerStudies volunteers =
          Volunteers.controls(store, needle -> SettingsInForce.gradingVersion(producer, needle));
      volunteers.leftOut().forEach(line -> lines.add("left out: " + line));
      if (volunteers.controls().isEmpty()) {
        lines.add("no kept study is marked as of a healthy volunteer and accepted by this grading");
      }
      volunteers.controls().stream()
          .map(Control::grading)
          .distinct()
          .forEach(grading -> lines.add("accepted by grading " + grading));
      return volunteers.controls();
    }
  }

  private ControlMethod method() throws InputFault {
    try {
      return ControlMethod.valueOf(method.toUpperCase(Locale.ROOT).replace('-', '_'));
    } catch (IllegalArgumentException e) {
      throw new InputFault(
          "--method",
          "",
          "mean-2-sd, mean-2-5-sd, nonparametric or robust",
          method,
          "give one of them");
    }
  }

  private static boolean belongs(Control control, ControlGroup group) {
    return control.muscle().equals(group.muscle())
        && control.needle().equals(group.needle())
        && control.activation() == group.activation();
  }

  private static String title(ControlGroup group) {
    return group.muscle()
        + ", "
        + group.needle()
        + " needle, "
        + group.activation().name().toLowerCase(Locale.ROOT)
        + ": "
        + group.subjects()
        + " subjects";
  }

  private static void addLimits(ControlGroup group, List<String> lines) {
    List<List<String>> rows = new ArrayList<>();
    rows.add(List.of("  limit of", "method", "us", "90 % interval", ""));
    for (OwnLimit limit : group.limits()) {
      rows.add(
          List.of(
              "  " + limit.what(),
              limit.method().words(),
              us(limit.valueUs()),
              us(limit.lowUs()) + " to " + us(limit.highUs()),
              limit.standing() == OwnLimit.Standing.ENOUGH
                  ? ""
                  : "too few: " + limit.method().fewest() + " needed"));
    }
    lines.addAll(Columns.of(rows));
    group
        .byAge()
        .forEach(
            age ->
                lines.add(
                    String.format(
                        Locale.ROOT,
                        "  age %d to under %d: mean %.1f us, single signal %.1f us (97.5 %% line)",
                        age.fromAgeYears(),
                        age.belowAgeYears(),
                        age.centreUs(),
                        age.individualUs())));
    group.warnings().forEach(warning -> lines.add("  " + warning));
  }

  private void addVerification(List<Control> own, double[] limitsUs, List<String> lines) {
    for (LimitTransfer.Verification answer :
        LimitTransfer.verify(own, centre, limitsUs[0], limitsUs[1])) {
      lines.add(
          String.format(
              Locale.ROOT,
              "  %s %.1f us: %d of %d controls beyond: %s",
              answer.what(),
              answer.limitUs(),
              answer.beyond(),
              answer.controls(),
              switch (answer.outcome()) {
                case BORNE_OUT -> "borne out";
                case REPEAT -> "not decided, collect 20 more";
                case NOT_BORNE_OUT -> "not borne out";
                case TOO_FEW -> "too few, 20 are needed";
              }));
    }
  }

  private void addPlateau(List<Control> own, List<String> lines) throws InputFault {
    for (String what : List.of(centre, "single signal")) {
      double[] values = own.stream().mapToDouble(c -> c.valueUs(what)).toArray();
      try {
        ReferralPlateau plateau = ReferralPlateau.of(values);
        lines.add(
            String.format(
                Locale.ROOT,
                "  %s: EXTRAPOLATED %.1f us; plateau of %d of %d referrals",
                what,
                plateau.limitUs(),
                plateau.onPlateau(),
                plateau.referrals()));
        plateau.warnings().forEach(warning -> lines.add("    " + warning));
      } catch (IllegalArgumentException e) {
        throw new InputFault(
            file == null ? "controls" : String.valueOf(file.getFileName()),
            "",
            "20 referrals or more",
            Integer.toString(values.length),
            "collect more");
      }
    }
  }

  private static String us(double us) {
    return String.format(Locale.ROOT, "%.1f", us);
  }
}
