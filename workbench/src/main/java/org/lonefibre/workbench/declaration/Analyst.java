package org.lonefibre.workbench.declaration;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Decision;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.Producer;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.StudySummary;

/**
 * The measuring chain as the workbench sees it. The program wires the one there is.
 *
 * <p>Thread rule: safe.
 */
public interface Analyst {

  /** Watches long work. */
  interface Watch {

    /** Work of a number of steps has done so many. */
    void step(String name, int done, int of);

    /** Whether the work is no longer wanted. */
    boolean isCancelled();
  }

  /** An invented study: what is declared of it, and where its files are. */
  record Demo(String title, Declaration declaration, Function<Source, Path> files) {}

  /** The program, as documents name it. */
  Producer producer();

  /** The version of the grading that accepts signals of a needle, as it works now. */
  String gradingVersion(String needle) throws IOException;

  /** What was measured before, and what was declared of it. */
  record Known(Declaration declaration, Examination result) {}

  /**
   * Takes everything declared through the chain.
   *
   * @param known a result whose recordings need not be measured again; null if there is none
   * @throws IllegalArgumentException if what is known was measured otherwise
   * @throws java.util.concurrent.CancellationException if the watch cancels
   */
  Examination analyse(
      Declaration declaration, Function<Source, Path> files, Watch watch, @Nullable Known known)
      throws IOException;

  /**
   * One site measured again from its recording, as a person wants it.
   *
   * @throws IllegalArgumentException if a decision is about nothing there, in words for the person
   */
  RecordingResult remeasure(
      Known known,
      int part,
      RecordingResult site,
      Function<Source, Path> files,
      List<Decision.OfSamples> decisions)
      throws IOException;

  /** One site after decisions of a person. */
  RecordingResult revise(
      Examination automatic, int part, RecordingResult site, List<Decision> decisions)
      throws IOException;

  /** One part judged again from its sites. */
  StudySummary judge(
      Declaration declaration, Examination automatic, int part, List<RecordingResult> sites)
      throws IOException;

  /** Makes the files of the invented study in a folder. */
  Demo demo(Path folder) throws IOException;
}
