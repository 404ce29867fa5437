package org.lonefibre.workbench.site;

import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import org.lonefibre.formats.RecordingReaders;
import org.lonefibre.formats.reader.HeaderField;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.formats.reader.StoredForm;
import org.lonefibre.formats.writer.Anonymous;
import org.lonefibre.formats.writer.EdfIdentity;
import org.lonefibre.formats.writer.LosslessCopy;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.store.recordings.KeptRecording;
import org.lonefibre.workbench.server.Json;
import org.lonefibre.workbench.server.LocalServer;
import org.lonefibre.workbench.server.Refusal;
import org.lonefibre.workbench.study.Desk;

/**
 * Copies of kept recordings as EDF+ without what identifies: first every byte of the header before
 * and after, then the file. The date is moved by days the page drew by lot.
 */
public final class AnonymousRoutes {

  private final Desk desk;

  /** Routes to the recordings of the studies of a desk. */
  public AnonymousRoutes(Desk desk) {
    this.desk = desk;
  }

  /** Adds them. */
  public void add(RoutesConfig routes) {
    routes.get("/api/studies/{study}/recordings/{position}/anonymous", this::look);
    routes.get("/api/studies/{study}/recordings/{position}/anonymous/file", this::file);
  }

  private interface Use {
    void of(Recording recording, Anonymous cleaned, LosslessCopy.Copied copied, Path copy)
        throws IOException;
  }

  private void copy(Context context, Use use) throws IOException {
    String position = context.pathParam("position");
    String days = Objects.requireNonNullElse(context.queryParam("shiftDays"), "");
    if (!days.matches("-[1-9][0-9]{2,4}")) {
      throw new Refusal(400, "shiftDays must be 100 days or more into the past.");
    }
    KeptRecording kept =
        desk.store().studies().listFiles(context.pathParam("study")).stream()
            .filter(file -> Integer.toString(file.position()).equals(position))
            .findFirst()
            .flatMap(file -> desk.store().studies().findRecording(file.sha256()))
            .orElseThrow();
    Path folder = Files.createTempDirectory("lonefibre-anonymous");
    Path copy = folder.resolve("copy.edf");
    try (Recording recording =
        RecordingReaders.open(desk.store().file(kept), ReadOptions.defaults())) {
      Anonymous cleaned = Anonymous.of(recording, Long.parseLong(days));
      use.of(
          recording,
          cleaned,
          LosslessCopy.write(
              cleaned.recording(),
              identity(context, cleaned.identity()),
              copy,
              LosslessCopy.Existing.KEEP),
          copy);
    } finally {
      Files.deleteIfExists(copy);
      Files.deleteIfExists(folder);
    }
  }

  /** Nothing is said of who and where but that it is invented, where it is. */
  private EdfIdentity identity(Context context, EdfIdentity of) throws IOException {
    boolean isDemo =
        desk.store()
            .studies()
            .find(context.pathParam("study"))
            .orElseThrow()
            .provenance()
            .equals("demo");
    return isDemo
        ? new EdfIdentity(of.patient(), of.recording() + " DEMO", of.start(), of.transducers())
        : of;
  }

  private void look(Context context) throws IOException {
    copy(
        context,
        (recording, cleaned, copied, copy) -> {
          List<HeaderField> before =
              recording instanceof StoredForm stored ? stored.listHeaderFields() : List.of();
          ObjectNode view = Json.object();
          view.put("format", copied.format());
          view.put("samples", copied.proof().samples());
          view.put("differing", copied.proof().differing());
          view.put("droppedAnnotations", cleaned.dropped().size());
          view.set("before", Json.tree(before));
          view.set("after", Json.tree(copied.headerFields()));
          LocalServer.json(context, view);
        });
  }

  private void file(Context context) throws IOException {
    copy(
        context,
        (recording, cleaned, copied, copy) -> {
          context.contentType("application/octet-stream");
          context.header("Content-Disposition", "attachment; filename=\"anonymous.edf\"");
          context.result(Files.readAllBytes(copy));
        });
  }
}
