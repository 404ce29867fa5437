package org.lonefibre.app.analyse;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.Side;
import org.lonefibre.analysis.study.Subject;
import org.lonefibre.analysis.study.Visit;
import org.lonefibre.app.declaration.DeclaredExamination;
import org.lonefibre.app.declaration.DeclaredRecording;
import org.lonefibre.app.declaration.DeclaredStudy;
import org.lonefibre.app.declaration.Words;
import org.lonefibre.app.terminal.InputFault;
import picocli.CommandLine.Option;

/**
 * The options that say what a study is. Without a study file they declare one study; with one they
 * fill what it leaves open, and contradict it nowhere.
 */
@SuppressWarnings("NullAway.Init")
final class StudyOptions {

  @Option(
      names = "--muscle",
      paramLabel = "MUSCLE",
      description = "Muscle: a key or short name of the table of muscles, such as ED.")
  private @Nullable String muscle;

  @Option(names = "--side", paramLabel = "SIDE", description = "left or right.")
  private @Nullable String side;

  @Option(names = "--age", paramLabel = "YEARS", description = "Age in years.")
  private @Nullable Double ageYears;

  @Option(
      names = "--subject",
      paramLabel = "CODE",
      description = "The laboratory's code for the person, never a name.")
  private @Nullable String subject;

  @Option(
      names = "--needle",
      paramLabel = "NEEDLE",
      description =
          "single-fibre, concentric-small, concentric-standard, monopolar, or a needle file.")
  private @Nullable String needle;

  @Option(
      names = "--activation",
      paramLabel = "ACTIVATION",
      description = "voluntary or stimulated.")
  private @Nullable String activation;

  @Option(
      names = "--limits",
      paramLabel = "SET_ID",
      description = "Limit set to compare with; it must fit the study.")
  private @Nullable String limits;

  @Option(
      names = "--chain-test",
      paramLabel = "FILE.json",
      description =
          "Test of the machine and its export that \"chain EXPORT --out FILE.json\" kept; shown in"
              + " the report.")
  private @Nullable Path chainTest;

  @Option(
      names = "--channel",
      paramLabel = "SIGNAL",
      description = "Signal to analyse: its label, or its number from 1.")
  private @Nullable String channel;

  @Option(
      names = "--stimulus-channel",
      paramLabel = "SIGNAL",
      description = "Signal that marks the stimuli: its label, or its number from 1.")
  private @Nullable String stimulusChannel;

  /** Needle as given, checked; null if not given. */
  @Nullable String needleKey() throws InputFault {
    return needle == null ? null : Words.needle(needle, Path.of(""), at("--needle"));
  }

  /** One study of some files. */
  DeclaredExamination declare(List<Path> files) throws InputFault {
    List<DeclaredRecording> recordings = new ArrayList<>();
    Set<Path> seen = new HashSet<>();
    for (Path file : files) {
      if (!seen.add(file.toAbsolutePath().normalize())) {
        throw new InputFault(
            file.toString(),
            "",
            "each file once",
            "it twice",
            "name it once, or write a study file");
      }
      recordings.add(new DeclaredRecording(file, null, null, null, null, null));
    }
    return fill(
        new DeclaredExamination(
            new Subject(null, null),
            Visit.UNDECLARED,
            List.of(new DeclaredStudy(null, null, null, null, null, recordings)),
            null));
  }

  /** The same with what it leaves open. */
  DeclaredExamination fill(DeclaredExamination open) throws InputFault {
    Double age = ageYears;
    if (age != null && !(age >= 0 && age <= 130)) {
      throw at("--age").fault("an age of 0 to 130 years", age.toString(), "correct it");
    }
    String code = subject == null ? null : Words.subjectCode(subject, at("--subject"));
    String muscleKey = muscle == null ? null : Words.muscle(muscle, at("--muscle"));
    Side sideKey = side == null ? null : Words.side(side, at("--side"));
    String needleKey = needleKey();
    Activation activationKey =
        activation == null ? null : Words.activation(activation, at("--activation"));
    String limitsKey = limits == null ? null : Words.limits(limits, at("--limits"));
    List<DeclaredStudy> studies = new ArrayList<>();
    for (DeclaredStudy study : open.studies()) {
      List<DeclaredRecording> recordings = new ArrayList<>();
      for (DeclaredRecording recording : study.recordings()) {
        recordings.add(
            new DeclaredRecording(
                recording.path(),
                recording.site(),
                recording.channel() == null ? channel : recording.channel(),
                recording.stimulusChannel() == null ? stimulusChannel : recording.stimulusChannel(),
                recording.startS(),
                recording.endS()));
      }
      studies.add(
          new DeclaredStudy(
              filled("--muscle", study.muscle(), muscleKey),
              filled("--side", study.side(), sideKey),
              filled("--needle", study.needle(), needleKey),
              filled("--activation", study.activation(), activationKey),
              filled("--limits", study.limits(), limitsKey),
              recordings));
    }
    return new DeclaredExamination(
        new Subject(
            filled("--subject", open.subject().code(), code),
            filled("--age", open.subject().ageYears(), age)),
        open.visit(),
        studies,
        filled("--chain-test", open.chainTest(), chainTest));
  }

  private static <T> @Nullable T filled(String option, @Nullable T declared, @Nullable T given)
      throws InputFault {
    if (declared != null && given != null && !declared.equals(given)) {
      throw at(option)
          .fault(
              "what the study file says, " + word(declared),
              word(given),
              "leave the option out or correct the study file");
    }
    return declared == null ? given : declared;
  }

  private static String word(Object value) {
    return value.toString().toLowerCase(java.util.Locale.ROOT);
  }

  private static Words.Place at(String option) {
    return (expected, found, remedy) -> new InputFault(option, "", expected, found, remedy);
  }
}
