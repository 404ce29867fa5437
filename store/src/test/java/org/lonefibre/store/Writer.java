package org.lonefibre.store;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Map;
import org.lonefibre.store.recordings.KeptRecording;
import org.lonefibre.store.studies.KeptStudy;

/** A program of its own that saves without end and prints what is saved, until it is killed. */
final class Writer {

  private Writer() {}

  public static void main(String[] arguments) throws IOException {
    try (Store store = Store.open(Path.of(arguments[0]), null, Clock.systemUTC())) {
      KeptStudy study =
          store.studies().list("").stream()
              .findFirst()
              .orElseGet(() -> store.studies().create("killed", null, "examination", "writer"));
      int saved = store.studies().steps().list(study.id()).size();
      for (int i = saved + 1; ; i++) {
        KeptRecording kept =
            store.keepRecording(
                new ByteArrayInputStream(("recording " + i).getBytes(StandardCharsets.UTF_8)),
                "a.edf",
                1000);
        store
            .studies()
            .keepAnalysis(study.id(), Map.of(kept, "a.edf"), Map.of("automatic", "" + i), "w", "");
        store.studies().steps().decide(study.id(), "site", "step " + i, "" + i, "why", "writer");
        System.out.println(i);
        System.out.flush();
      }
    }
  }
}
