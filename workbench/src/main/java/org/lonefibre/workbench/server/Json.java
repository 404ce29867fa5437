package org.lonefibre.workbench.server;

import com.fasterxml.jackson.annotation.JsonIgnoreProperties;
import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonSubTypes;
import com.fasterxml.jackson.annotation.JsonTypeInfo;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.MapperFeature;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.databind.util.RawValue;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Decision;
import org.lonefibre.analysis.study.EndPlateResult;
import org.lonefibre.analysis.study.MotorUnitResult;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.analysis.study.PotentialResult;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.StimulationResult;
import org.lonefibre.report.document.KebabEnums;

/** JSON of the workbench: camelCase names, words in kebab-case. Thread rule: safe. */
public final class Json {

  @JsonTypeInfo(use = JsonTypeInfo.Id.NAME, property = "kind")
  @JsonSubTypes({
    @JsonSubTypes.Type(value = Decision.Sweeps.class, name = "sweeps"),
    @JsonSubTypes.Type(value = Decision.Stretch.class, name = "stretch"),
    @JsonSubTypes.Type(value = Decision.OfPotential.class, name = "potential"),
    @JsonSubTypes.Type(value = Decision.OfSignal.class, name = "signal"),
    @JsonSubTypes.Type(value = Decision.Grading.class, name = "grading"),
    @JsonSubTypes.Type(value = Decision.Trigger.class, name = "trigger"),
    @JsonSubTypes.Type(value = Decision.Filter.class, name = "filter"),
    @JsonSubTypes.Type(value = Decision.Level.class, name = "level"),
    @JsonSubTypes.Type(value = Decision.Missed.class, name = "missed"),
    @JsonSubTypes.Type(value = Decision.Merge.class, name = "merge"),
    @JsonSubTypes.Type(value = Decision.Split.class, name = "split"),
  })
  private interface DecisionKinds {}

  /** Decisions taken before discharges could be chosen read and write as they did. */
  private interface ChosenOnly {
    @JsonInclude(JsonInclude.Include.NON_EMPTY)
    List<Integer> sweeps();
  }

  private static final JsonMapper MAPPER =
      JsonMapper.builder()
          .addModule(new KebabEnums())
          .addMixIn(Decision.class, DecisionKinds.class)
          .addMixIn(Decision.Split.class, ChosenOnly.class)
          .configure(SerializationFeature.ORDER_MAP_ENTRIES_BY_KEYS, true)
          .configure(MapperFeature.ALLOW_COERCION_OF_SCALARS, false)
          .configure(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES, true)
          .configure(DeserializationFeature.FAIL_ON_NULL_FOR_PRIMITIVES, true)
          .configure(DeserializationFeature.FAIL_ON_TRAILING_TOKENS, true)
          .build();

  /** What is drawn sweep by sweep. */
  @JsonIgnoreProperties({"intervals", "latencies", "drawing"})
  private interface Sweeps {}

  private static final JsonMapper WITHOUT_SWEEPS =
      MAPPER
          .rebuild()
          .addMixIn(PairResult.class, Sweeps.class)
          .addMixIn(EndPlateResult.class, Sweeps.class)
          .addMixIn(PotentialResult.class, Sweeps.class)
          .addMixIn(MotorUnitResult.class, Sweeps.class)
          .addMixIn(StimulationResult.class, Sweeps.class)
          .build();

  private Json() {}

  /** An empty object. */
  public static ObjectNode object() {
    return MAPPER.createObjectNode();
  }

  /** A value as a tree. */
  public static JsonNode tree(Object value) {
    return MAPPER.valueToTree(value);
  }

  /** A value as text; the same value always gives the same text. */
  public static String text(Object value) {
    try {
      return MAPPER.writeValueAsString(value);
    } catch (JsonProcessingException e) {
      throw new IllegalArgumentException(e.getOriginalMessage(), e);
    }
  }

  /** A value as UTF-8, without its text beside it. */
  public static byte[] bytes(Object value) {
    try {
      return MAPPER.writeValueAsBytes(value);
    } catch (JsonProcessingException e) {
      throw new IllegalArgumentException(e.getOriginalMessage(), e);
    }
  }

  /**
   * Puts a value that may be large into an object: it is written out only when the object is, and
   * no tree of it is held meanwhile.
   *
   * @param value a value that does not change; null is written as null
   */
  public static void put(ObjectNode object, String name, @Nullable Object value) {
    object.putPOJO(name, value);
  }

  /**
   * Puts a site into an object without what is drawn sweep by sweep, for a comparison of numbers.
   */
  public static void putWithoutSweeps(ObjectNode object, String name, RecordingResult site) {
    try {
      object.putRawValue(name, new RawValue(WITHOUT_SWEEPS.writeValueAsString(site)));
    } catch (JsonProcessingException e) {
      throw new IllegalArgumentException(e.getOriginalMessage(), e);
    }
  }

  /**
   * Reads a value.
   *
   * @throws Refusal with 400 if the text is not of this kind
   */
  public static <T> T read(String text, Class<T> type) {
    try {
      T value = MAPPER.readValue(text, type);
      if (value == null) {
        throw new Refusal(400, "The request holds null.");
      }
      return value;
    } catch (JsonProcessingException e) {
      Throwable cause = e.getCause();
      throw new Refusal(
          400,
          cause instanceof IllegalArgumentException
              ? String.valueOf(cause.getMessage())
              : "The request is not what was expected: "
                  + e.getOriginalMessage().lines().findFirst().orElse(""));
    }
  }
}
