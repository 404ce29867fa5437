package org.lonefibre.report.document;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonMappingException;
import com.fasterxml.jackson.databind.MapperFeature;
import com.fasterxml.jackson.databind.ObjectWriter;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.Optional;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.signal.recording.RecordingFormatException;

/**
 * Writes an examination as {@code analysis.json} and reads it back.
 *
 * <p>UTF-8, two spaces of indentation, line feeds; the same examination always gives the same
 * bytes. Property names are the component names of the records, enums are in kebab-case, absent
 * values are written as null, numbers keep every digit. What was written reads back equal.
 *
 * <ul>
 *   <li>A property that this version does not know is passed over: the contract allows a later one
 *       to add, never to rename.
 *   <li>A missing property, null where a value is promised, a wrong type, an unknown word or a
 *       number that is not finite is refused with its place.
 * </ul>
 *
 * <p>Safe for use by several threads.
 */
public final class AnalysisJson {

  /** Resource that holds the JSON Schema of the document. */
  public static final String SCHEMA_RESOURCE = "docs/schema/lonefibre-analysis-1.schema.json";

  private static final String REMEDY = "give an analysis.json that Lonefibre wrote";

  static final JsonMapper MAPPER =
      JsonMapper.builder(
              JsonFactory.builder()
                  .streamReadConstraints(
                      StreamReadConstraints.builder().maxNestingDepth(64).build())
                  .build())
          .addModule(new KebabEnums())
          .configure(MapperFeature.ALLOW_COERCION_OF_SCALARS, false)
          .configure(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES, false)
          .configure(DeserializationFeature.FAIL_ON_MISSING_CREATOR_PROPERTIES, true)
          .configure(DeserializationFeature.FAIL_ON_NULL_FOR_PRIMITIVES, true)
          .configure(DeserializationFeature.FAIL_ON_TRAILING_TOKENS, true)
          .build();

  private static final ObjectWriter WRITER = MAPPER.writer(printer());

  private AnalysisJson() {}

  /**
   * Writes an examination; the stream stays open.
   *
   * @throws IllegalArgumentException if a number is not finite or a promised value is absent; the
   *     message names the place. Nothing is written then
   * @throws IOException if the stream fails
   */
  public static void write(Examination examination, OutputStream out) throws IOException {
    Optional<Completeness.Breach> breach = Completeness.findBreach(examination);
    if (breach.isPresent()) {
      throw new IllegalArgumentException(
          breach.get().place()
              + " must be given and finite in a document, found "
              + breach.get().found());
    }
    try (JsonGenerator json = WRITER.createGenerator(out)) {
      json.disable(JsonGenerator.Feature.AUTO_CLOSE_TARGET);
      WRITER.writeValue(json, examination);
      json.writeRaw('\n');
    }
  }

  /**
   * Reads an examination.
   *
   * @throws RecordingFormatException if the file is no {@code analysis.json} of this version, or
   *     broken; the message is one line with the place
   * @throws IOException if the file cannot be read
   */
  public static Examination read(Path file) throws IOException {
    String name = String.valueOf(file.getFileName());
    try {
      return read(name, Files.readAllBytes(file));
    } catch (NoSuchFileException e) {
      throw new RecordingFormatException(name, "file", "a file", "nothing", REMEDY);
    }
  }

  /**
   * Reads an examination from bytes.
   *
   * @param name name of the file, for messages
   * @param bytes the whole document
   * @throws RecordingFormatException as {@link #read(Path)} says
   */
  public static Examination read(String name, byte[] bytes) throws RecordingFormatException {
    try {
      requireSchema(name, bytes);
      Examination examination =
          MAPPER.readValue(EarlierDocuments.completed(bytes, MAPPER), Examination.class);
      Optional<Completeness.Breach> breach = Completeness.findBreach(examination);
      if (breach.isPresent()) {
        throw new RecordingFormatException(
            name, breach.get().place(), "a finite value", breach.get().found(), REMEDY);
      }
      return examination;
    } catch (RecordingFormatException e) {
      throw e;
    } catch (JsonProcessingException e) {
      throw new RecordingFormatException(
          name, place(e), "a document " + Examination.SCHEMA, firstLine(e), REMEDY);
    } catch (IOException e) {
      throw new RecordingFormatException(name, "file", "JSON", String.valueOf(e), REMEDY);
    }
  }

  /** Reads only as far as needed to tell a foreign document by its name. */
  private static void requireSchema(String name, byte[] bytes) throws IOException {
    try (JsonParser json = MAPPER.createParser(bytes)) {
      if (json.nextToken() != JsonToken.START_OBJECT) {
        String start = new String(bytes, 0, Math.min(20, bytes.length), StandardCharsets.UTF_8);
        throw new RecordingFormatException(
            name, "line 1", "a JSON object", start.isEmpty() ? "nothing" : start, REMEDY);
      }
      while (json.nextToken() == JsonToken.FIELD_NAME) {
        boolean isSchema = json.currentName().equals("schema");
        json.nextToken();
        if (isSchema) {
          String found = json.getValueAsString("another type of value");
          if (!found.equals(Examination.SCHEMA)) {
            throw new RecordingFormatException(name, "schema", Examination.SCHEMA, found, REMEDY);
          }
          return;
        }
        json.skipChildren();
      }
    }
    throw new RecordingFormatException(name, "schema", Examination.SCHEMA, "no schema", REMEDY);
  }

  static String place(JsonProcessingException e) {
    JsonLocation location = e.getLocation();
    String where =
        location == null || location.getLineNr() < 1
            ? ""
            : "line " + location.getLineNr() + ", column " + location.getColumnNr();
    StringBuilder path = new StringBuilder();
    if (e instanceof JsonMappingException mapping) {
      for (JsonMappingException.Reference step : mapping.getPath()) {
        if (step.getFieldName() != null) {
          path.append(path.isEmpty() ? "" : ".").append(step.getFieldName());
        } else {
          path.append('[').append(step.getIndex()).append(']');
        }
      }
    }
    return path.isEmpty() ? where : where.isEmpty() ? path.toString() : where + ", " + path;
  }

  static String firstLine(JsonProcessingException e) {
    return e.getOriginalMessage().lines().findFirst().orElse("something unreadable");
  }

  private static DefaultPrettyPrinter printer() {
    DefaultIndenter indenter = new DefaultIndenter("  ", "\n");
    DefaultPrettyPrinter printer = new DefaultPrettyPrinter();
    printer.indentObjectsWith(indenter);
    return printer;
  }
}
