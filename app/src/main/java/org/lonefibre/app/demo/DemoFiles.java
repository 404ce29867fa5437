package org.lonefibre.app.demo;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.Side;
import org.lonefibre.app.simulate.SimulatedFiles;
import org.lonefibre.model.simulation.DemoStudy;
import org.lonefibre.workbench.declaration.Analyst;
import org.lonefibre.workbench.declaration.Declaration;
import org.lonefibre.workbench.declaration.Part;
import org.lonefibre.workbench.declaration.Source;

/** The recordings of the demo study, and what is declared of them. Thread rule: safe. */
public final class DemoFiles {

  private DemoFiles() {}

  /** Writes the recordings into a folder. */
  public static Analyst.Demo write(Path folder) throws IOException {
    List<Source> sources = new ArrayList<>();
    Map<String, Path> files = new HashMap<>();
    for (Path file : SimulatedFiles.write(DemoStudy.plan(), DemoCommand.subject(), folder)) {
      String name = String.valueOf(file.getFileName());
      files.put(name, file);
      sources.add(new Source("", name, null, null, null, null, null));
    }
    Declaration declaration =
        new Declaration(
            DemoStudy.SUBJECT,
            (double) DemoStudy.AGE_YEARS,
            DemoCommand.visit(),
            List.of(
                new Part(
                    "extensor digitorum",
                    Side.RIGHT,
                    DemoStudy.NEEDLE,
                    Activation.VOLUNTARY,
                    null,
                    sources)));
    return new Analyst.Demo(
        "DEMO, invented data: extensor digitorum, right",
        declaration,
        source -> Objects.requireNonNull(files.get(source.fileName())));
  }
}
