package org.lonefibre.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Clock;
import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.store.audit.Change;
import org.lonefibre.store.audit.Seal;
import org.lonefibre.store.migration.StoreFault;
import org.lonefibre.store.practice.PracticeAnswer;
import org.lonefibre.store.recordings.KeptRecording;
import org.lonefibre.store.studies.KeptStudy;
import org.lonefibre.store.studies.SignedVersion;
import org.lonefibre.store.studies.Step;
import org.lonefibre.store.studies.StudyShelf;

/** What every store promises, whichever database keeps its tables. */
@Tag("contract")
abstract class StoreContract {

  static final String PERSON = "Dr Example";

  @TempDir @Nullable Path temporary;

  /** URL of an empty database; null for one in the folder. */
  abstract @Nullable String freshDatabase() throws IOException;

  private Path folder() {
    return java.util.Objects.requireNonNull(temporary).resolve("data");
  }

  private static KeptRecording keep(Store store, String content, String name) throws IOException {
    return store.keepRecording(
        new ByteArrayInputStream(content.getBytes(StandardCharsets.UTF_8)), name, 1000);
  }

  private static KeptStudy filled(Store store) throws IOException {
    StudyShelf shelf = store.studies();
    KeptStudy study = shelf.create("Hand, right", "A-1", "examination", PERSON);
    KeptRecording kept = keep(store, "samples", "site 1.EDF");
    shelf.keepAnalysis(
        study.id(), Map.of(kept, "site 1.EDF"), Map.of("automatic", "{\"x\":1}"), PERSON, "");
    shelf.note(study.id(), "comment", "Seen <b>twice</b>", PERSON);
    shelf.steps().decide(study.id(), "site 1", "exclude sweep 7", "{}", "movement", PERSON);
    return study;
  }

  @Test
  void whatWasKeptIsThereAfterReopening() throws IOException {
    String url = freshDatabase();
    String id;
    try (Store store = Store.open(folder(), url, Clock.systemUTC())) {
      id = filled(store).id();
    }
    try (Store store = Store.open(folder(), url, Clock.systemUTC())) {
      StudyShelf shelf = store.studies();
      KeptStudy study = shelf.find(id).orElseThrow();
      assertThat(study.title()).isEqualTo("Hand, right");
      assertThat(study.state()).isEqualTo("open");
      assertThat(shelf.findDocument(id, "automatic")).contains("{\"x\":1}");
      assertThat(shelf.notes(id)).containsEntry("comment", "Seen <b>twice</b>");
      assertThat(shelf.steps().list(id))
          .extracting(Step::stepName)
          .containsExactly("exclude sweep 7");
      KeptRecording recording =
          shelf.findRecording(shelf.listFiles(id).get(0).sha256()).orElseThrow();
      assertThat(Files.readString(store.file(recording))).isEqualTo("samples");
      assertThat(store.file(recording).getFileName()).hasToString(recording.sha256() + ".edf");
      assertThat(store.verify()).isEmpty();
    }
  }

  @Test
  void theFolderIsForItsOwnerAlone() throws IOException {
    try (Store store = Store.open(folder(), freshDatabase(), Clock.systemUTC())) {
      filled(store);
      assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(folder())))
          .isEqualTo("rwx------");
      assertThat(
              PosixFilePermissions.toString(
                  Files.getPosixFilePermissions(folder().resolve("installation.key"))))
          .isEqualTo("rw-------");
    }
  }

  @Test
  void aSecondInstanceIsRefused() throws IOException {
    String url = freshDatabase();
    try (Store store = Store.open(folder(), url, Clock.systemUTC())) {
      assertThat(store.verify()).isEmpty();
      assertThatThrownBy(() -> Store.open(folder(), url, Clock.systemUTC()))
          .isInstanceOf(StoreFault.class)
          .hasMessageContaining("another Lonefibre");
    }
  }

  @Test
  void theSameBytesAreKeptOnceAndTooManyAreRefused() throws IOException {
    try (Store store = Store.open(folder(), freshDatabase(), Clock.systemUTC())) {
      KeptRecording one = keep(store, "same", "a.edf");
      assertThat(keep(store, "same", "b.edf")).isEqualTo(one);
      assertThatThrownBy(() -> keep(store, "x".repeat(1001), "c.edf"))
          .isInstanceOf(StoreFault.class);
      assertThat(keep(store, "hostile", "../../etc/passwd").extension()).isEmpty();
      try (var files = Files.list(folder().resolve("recordings"))) {
        assertThat(files).hasSize(2);
      }
    }
  }

  @Test
  void studiesAreFoundByTheDocumentsTheyHold() throws IOException {
    try (Store store = Store.open(folder(), freshDatabase(), Clock.systemUTC())) {
      String with = filled(store).id();
      String without = filled(store).id();
      for (String content : List.of("{\"n\":1}", "{\"n\":2}")) {
        store.studies().keepAnalysis(with, Map.of(), Map.of("reading", content), PERSON, "");
      }
      assertThat(store.studies().listWithDocument("reading")).containsExactly(with);
      assertThat(store.studies().listWithDocument("reading")).doesNotContain(without);
      assertThat(store.studies().listWithDocument("none")).isEmpty();
    }
  }

  @Test
  void stepsAreUndoneRedoneAndAbandoned() throws IOException {
    try (Store store = Store.open(folder(), freshDatabase(), Clock.systemUTC())) {
      String id = filled(store).id();
      var steps = store.studies().steps();
      steps.decide(id, "site 1", "exclude sweep 8", "{}", "movement", PERSON);
      assertThat(steps.undo(id, PERSON)).map(Step::stepName).contains("exclude sweep 8");
      assertThat(steps.undo(id, PERSON)).map(Step::stepName).contains("exclude sweep 7");
      assertThat(steps.undo(id, PERSON)).isEmpty();
      assertThat(steps.redo(id, PERSON)).map(Step::stepName).contains("exclude sweep 7");
      steps.decide(id, "site 1", "exclude sweep 9", "{}", "movement", PERSON);
      assertThat(steps.redo(id, PERSON)).isEmpty();
      assertThat(steps.list(id))
          .extracting(Step::state)
          .containsExactly("active", "abandoned", "active");
      assertThat(store.listChanges(id, 4))
          .extracting(Change::action)
          .containsExactly(
              "decision: exclude sweep 9",
              "redone: exclude sweep 7",
              "undone: exclude sweep 7",
              "undone: exclude sweep 8");
    }
  }

  @Test
  void aSignedVersionStaysAndALaterChangeAmends() throws IOException {
    try (Store store = Store.open(folder(), freshDatabase(), Clock.systemUTC())) {
      StudyShelf shelf = store.studies();
      String id = filled(store).id();
      long revision = shelf.find(id).orElseThrow().revision();
      shelf
          .signatures()
          .sign(id, revision, "{\"signed\":1}", store.seal(), PERSON, "reviewed and approved");
      assertThat(shelf.find(id)).map(KeptStudy::state).contains("signed");
      shelf.note(id, "comment", "later", PERSON);
      assertThat(shelf.find(id)).map(KeptStudy::state).contains("amended");
      SignedVersion version = shelf.signatures().list(id).get(0);
      assertThat(version.content()).isEqualTo("{\"signed\":1}");
      assertThat(Seal.fits(version.content(), version.seal(), version.publicKey())).isTrue();
      assertThat(Seal.fits("{\"signed\":2}", version.seal(), version.publicKey())).isFalse();
      assertThatThrownBy(
              () -> shelf.signatures().sign(id, revision, "{}", store.seal(), PERSON, "approved"))
          .isInstanceOf(IllegalStateException.class);
    }
  }

  @Test
  void theRecordOfChangesCannotBeAlteredByAStatement() throws IOException {
    try (Store store = Store.open(folder(), freshDatabase(), Clock.systemUTC())) {
      filled(store);
      for (String statement :
          List.of(
              "update change_record set actor = 'nobody'",
              "delete from change_record where sequence = 2")) {
        assertThatThrownBy(
                () -> store.database().jdbi().useHandle(handle -> handle.execute(statement)))
            .hasMessageContaining("append-only");
      }
      assertThat(store.verify()).isEmpty();
    }
  }

  @Test
  void verifyFindsAlteredDocumentsAndRecordings() throws IOException {
    try (Store store = Store.open(folder(), freshDatabase(), Clock.systemUTC())) {
      String id = filled(store).id();
      KeptRecording recording =
          store
              .studies()
              .findRecording(store.studies().listFiles(id).get(0).sha256())
              .orElseThrow();
      Files.writeString(store.file(recording), "other samples");
      store
          .database()
          .jdbi()
          .useHandle(handle -> handle.execute("update document set content = '{\"x\":2}'"));
      assertThat(store.verify())
          .hasSize(2)
          .anyMatch(line -> line.contains("automatic 1: was altered"))
          .anyMatch(line -> line.contains(recording.sha256() + ": was altered"));
    }
  }

  @Test
  void searchTakesPercentAndUnderscoreAsTheyAre() throws IOException {
    try (Store store = Store.open(folder(), freshDatabase(), Clock.systemUTC())) {
      store.studies().create("100 % sure", null, "examination", PERSON);
      store.studies().create("Face_left", "B-2", "examination", PERSON);
      assertThat(store.studies().list("%"))
          .extracting(KeptStudy::title)
          .containsExactly("100 % sure");
      assertThat(store.studies().list("E_L"))
          .extracting(KeptStudy::title)
          .containsExactly("Face_left");
      assertThat(store.studies().list("b-2")).hasSize(1);
      assertThat(store.studies().list("")).hasSize(2);
      assertThatThrownBy(() -> store.studies().note("none", "comment", "x", PERSON))
          .isInstanceOf(NoSuchElementException.class);
    }
  }

  @Test
  void aBackupRestoresIntoAnEmptyStoreAndOnlyThere() throws IOException {
    Path backup = java.util.Objects.requireNonNull(temporary).resolve("backup.zip");
    String id;
    List<Change> before;
    try (Store store = Store.open(folder(), freshDatabase(), Clock.systemUTC())) {
      id = filled(store).id();
      before = store.listChanges("", 1000);
      PracticeAnswer answer =
          new PracticeAnswer(
              PERSON, 1, 2, "", "one fibre", "doubtful", "single-fibre", 75, "{\"x\":1}");
      assertThat(store.practice().keep(answer)).isTrue();
      assertThat(store.practice().keep(answer)).as("the first answer stands").isFalse();
      store.backup(backup);
    }
    Path other = java.util.Objects.requireNonNull(temporary).resolve("other");
    Store.restore(backup, other, null, Clock.systemUTC());
    try (Store store = Store.open(other, null, Clock.systemUTC())) {
      assertThat(store.listChanges("", 1000)).isEqualTo(before);
      assertThat(store.studies().notes(id)).containsEntry("comment", "Seen <b>twice</b>");
      assertThat(store.practice().list(PERSON))
          .singleElement()
          .satisfies(
              kept -> {
                assertThat(kept.scorePercent()).isEqualTo(75);
                assertThat(kept.answeredAt()).isNotEmpty();
              });
      assertThat(store.practice().list("another")).isEmpty();
      assertThat(store.verify()).isEmpty();
    }
    assertThatThrownBy(() -> Store.restore(backup, other, null, Clock.systemUTC()))
        .isInstanceOf(StoreFault.class);
  }
}
