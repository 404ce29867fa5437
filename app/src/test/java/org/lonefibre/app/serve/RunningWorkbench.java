package org.lonefibre.app.serve;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Producer;
import org.lonefibre.app.needle.KnownNeedles;
import org.lonefibre.app.practice.SimulatedPractice;
import org.lonefibre.report.dicom.Pacs;
import org.lonefibre.store.Store;
import org.lonefibre.workbench.Workbench;

/** The workbench on a store of its own. */
record RunningWorkbench(Store store, Workbench workbench) implements AutoCloseable {

  static RunningWorkbench in(Path folder) throws IOException {
    return in(folder, null);
  }

  static RunningWorkbench in(Path folder, @Nullable Pacs archive) throws IOException {
    Store store = Store.open(folder, null, Clock.systemUTC());
    ChainAnalyst analyst =
        new ChainAnalyst(new Producer("Lonefibre", "test"), store.limits()::laboratory);
    return new RunningWorkbench(
        store,
        Workbench.start(
            store,
            analyst,
            new KnownNeedles(folder.resolveSibling("needles")),
            new SimulatedPractice(analyst),
            archive,
            0));
  }

  String token() {
    return workbench.address().substring(workbench.address().indexOf("token=") + 6);
  }

  @Override
  public void close() throws IOException {
    workbench.close();
    store.close();
  }
}
