package org.lonefibre.report.document;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.databind.BeanDescription;
import com.fasterxml.jackson.databind.DeserializationConfig;
import com.fasterxml.jackson.databind.DeserializationContext;
import com.fasterxml.jackson.databind.JavaType;
import com.fasterxml.jackson.databind.JsonDeserializer;
import com.fasterxml.jackson.databind.SerializerProvider;
import com.fasterxml.jackson.databind.deser.BeanDeserializerModifier;
import com.fasterxml.jackson.databind.module.SimpleModule;
import com.fasterxml.jackson.databind.ser.std.StdSerializer;
import java.io.IOException;
import java.io.Serial;
import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;

/** Spells every enum of a document in kebab-case, both ways. Thread rule: safe. */
public final class KebabEnums extends SimpleModule {

  @Serial private static final long serialVersionUID = 1L;

  /** A module for one mapper. */
  public KebabEnums() {
    addSerializer(new Writer());
    setDeserializerModifier(new Readers());
  }

  /** The word of an enum constant in documents. */
  static String word(Enum<?> constant) {
    return constant.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  @SuppressWarnings("rawtypes") // Jackson asks for the raw class
  private static final class Writer extends StdSerializer<Enum> {

    @Serial private static final long serialVersionUID = 1L;

    Writer() {
      super(Enum.class);
    }

    @Override
    public void serialize(Enum value, JsonGenerator json, SerializerProvider provider)
        throws IOException {
      json.writeString(word(value));
    }
  }

  private static final class Readers extends BeanDeserializerModifier {

    @Serial private static final long serialVersionUID = 1L;

    @Override
    public JsonDeserializer<?> modifyEnumDeserializer(
        DeserializationConfig config,
        JavaType type,
        BeanDescription description,
        JsonDeserializer<?> deserializer) {
      return new Reader(type.getRawClass());
    }
  }

  private static final class Reader extends JsonDeserializer<Enum<?>> {

    private final Class<?> type;

    Reader(Class<?> type) {
      this.type = type;
    }

    @Override
    public Enum<?> deserialize(JsonParser json, DeserializationContext context) throws IOException {
      String word = json.getValueAsString("");
      for (Object constant : type.getEnumConstants()) {
        if (constant instanceof Enum<?> candidate && word(candidate).equals(word)) {
          return candidate;
        }
      }
      String known =
          Arrays.stream(type.getEnumConstants())
              .map(constant -> word((Enum<?>) constant))
              .collect(Collectors.joining(", "));
      throw context.weirdStringException(word, type, "one of " + known);
    }
  }
}
