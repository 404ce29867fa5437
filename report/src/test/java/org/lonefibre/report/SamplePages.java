package org.lonefibre.report;

import java.nio.file.Path;
import java.util.Map;
import org.lonefibre.analysis.study.Examination;

/** Writes the samples into a folder, to be looked at. */
final class SamplePages {

  private SamplePages() {}

  public static void main(String[] arguments) throws Exception {
    Path folder = Path.of(arguments[0]);
    Map<String, Examination> samples =
        Map.of(
            "voluntary", ExaminationSample.voluntary(),
            "stimulated", ExaminationSample.stimulated(),
            "nothing", ExaminationSample.nothingMeasured(),
            "refused", ExaminationSample.refusedOnly(),
            "hostile", ExaminationSample.hostile());
    for (Map.Entry<String, Examination> sample : samples.entrySet()) {
      new ReportWriter()
          .write(sample.getValue(), folder.resolve(sample.getKey()), ReportFormat.USUAL);
    }
  }
}
