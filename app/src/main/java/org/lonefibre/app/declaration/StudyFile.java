package org.lonefibre.app.declaration;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.lonefibre.analysis.study.Subject;
import org.lonefibre.analysis.study.Visit;
import org.lonefibre.app.terminal.InputFault;

/**
 * Reads a study file: {@code subject}, {@code visit}, {@code studies} and {@code chainTest}, in
 * YAML.
 *
 * <ul>
 *   <li>Files are found from the folder of the study file.
 *   <li>An unknown key is refused, with the nearest known one: a misspelt age would otherwise be an
 *       age left out.
 *   <li>Whether a recording can be read is not asked here: one that cannot is refused later, alone.
 * </ul>
 */
public final class StudyFile {

  private static final double LONGEST_S = 1e7;

  private StudyFile() {}

  /**
   * Reads a file.
   *
   * @throws InputFault if it is not a study file; the message names key, line, what was expected
   *     and what was found
   * @throws IOException if it cannot be read
   */
  public static DeclaredExamination read(Path file) throws IOException {
    Path folder = file.toAbsolutePath().getParent();
    YamlMap root = YamlReader.read(file).allow("subject", "visit", "studies", "chainTest");
    List<DeclaredStudy> studies = new ArrayList<>();
    Path base = folder == null ? file.toAbsolutePath() : folder;
    for (YamlMap study : root.maps("studies")) {
      studies.add(study(study, base));
    }
    String chainTest = root.text("chainTest");
    return new DeclaredExamination(
        subject(root),
        visit(root),
        studies,
        chainTest == null ? null : resolve(root, "chainTest", chainTest, base));
  }

  private static Subject subject(YamlMap root) throws InputFault {
    YamlMap subject = root.map("subject").allow("code", "ageYears");
    String code = subject.text("code");
    return new Subject(
        code == null ? null : Words.subjectCode(code, at(subject, "code")),
        subject.number("ageYears", 0, 130, "years"));
  }

  private static Visit visit(YamlMap root) throws InputFault {
    YamlMap visit =
        root.map("visit").allow("date", "examiner", "temperatureDegC", "medication", "note");
    return new Visit(
        visit.text("date"),
        visit.text("examiner"),
        visit.number("temperatureDegC", 0, 60, "degrees Celsius"),
        visit.text("medication"),
        visit.text("note"));
  }

  private static DeclaredStudy study(YamlMap study, Path folder) throws InputFault {
    study.allow("muscle", "side", "needle", "activation", "limits", "recordings");
    String muscle = study.text("muscle");
    String side = study.text("side");
    String needle = study.text("needle");
    String activation = study.text("activation");
    String limits = study.text("limits");
    List<DeclaredRecording> recordings = new ArrayList<>();
    for (YamlMap recording : study.maps("recordings")) {
      recordings.add(recording(recording, folder));
    }
    return new DeclaredStudy(
        muscle == null ? null : Words.muscle(muscle, at(study, "muscle")),
        side == null ? null : Words.side(side, at(study, "side")),
        needle == null ? null : Words.needle(needle, folder, at(study, "needle")),
        activation == null ? null : Words.activation(activation, at(study, "activation")),
        limits == null ? null : Words.limits(limits, at(study, "limits")),
        recordings);
  }

  private static DeclaredRecording recording(YamlMap recording, Path folder) throws InputFault {
    recording.allow("file", "site", "channel", "stimulusChannel", "startS", "endS");
    String name = recording.text("file");
    if (name == null) {
      throw recording.fault("file", "the name of a file", "nothing", "write file: NAME");
    }
    Double startS = recording.number("startS", 0, LONGEST_S, "s");
    Double endS = recording.number("endS", 0, LONGEST_S, "s");
    if (endS != null && endS <= (startS == null ? 0 : startS)) {
      throw recording.fault(
          "endS", "a time after startS", endS + " s", "exchange or correct the two times");
    }
    return new DeclaredRecording(
        resolve(recording, "file", name, folder),
        recording.text("site"),
        recording.text("channel"),
        recording.text("stimulusChannel"),
        startS,
        endS);
  }

  private static Path resolve(YamlMap map, String key, String name, Path folder) throws InputFault {
    try {
      Path path = folder.resolve(name).normalize();
      if (Files.isDirectory(path)) {
        throw map.fault(key, "a file", "a folder", "name the file in it");
      }
      return path;
    } catch (java.nio.file.InvalidPathException e) {
      throw map.fault(key, "the name of a file", name, "check its characters");
    }
  }

  private static Words.Place at(YamlMap map, String key) {
    return (expected, found, remedy) -> map.fault(key, expected, found, remedy);
  }
}
