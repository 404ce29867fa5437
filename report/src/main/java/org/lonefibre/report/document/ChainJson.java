package org.lonefibre.report.document;

import com.fasterxml.jackson.core.JsonProcessingException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.Optional;
import org.lonefibre.analysis.chain.KeptChain;
import org.lonefibre.signal.recording.RecordingFormatException;

/** Reads the test of a chain that the command {@code chain} kept. Safe for several threads. */
public final class ChainJson {

  private static final String REMEDY = "give a file that \"chain EXPORT --out FILE.json\" wrote";

  private ChainJson() {}

  /**
   * Reads it.
   *
   * @throws RecordingFormatException if it is none, or broken; the message is one line
   * @throws IOException if the file cannot be read
   */
  public static KeptChain read(Path file) throws IOException {
    String name = String.valueOf(file.getFileName());
    try {
      KeptChain kept = AnalysisJson.MAPPER.readValue(Files.readAllBytes(file), KeptChain.class);
      Optional<Completeness.Breach> breach =
          kept == null
              ? Optional.of(new Completeness.Breach("document", "null"))
              : Completeness.findBreach(kept);
      if (breach.isPresent()) {
        throw new RecordingFormatException(
            name, breach.get().place(), "a finite value", breach.get().found(), REMEDY);
      }
      if (!kept.schema().equals(KeptChain.SCHEMA)) {
        throw new RecordingFormatException(name, "schema", KeptChain.SCHEMA, kept.schema(), REMEDY);
      }
      return kept;
    } catch (NoSuchFileException e) {
      throw new RecordingFormatException(name, "file", "a file", "nothing", REMEDY);
    } catch (JsonProcessingException e) {
      throw new RecordingFormatException(
          name,
          AnalysisJson.place(e),
          "a document " + KeptChain.SCHEMA,
          AnalysisJson.firstLine(e),
          REMEDY);
    }
  }
}
