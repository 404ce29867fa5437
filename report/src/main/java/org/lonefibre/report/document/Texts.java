package org.lonefibre.report.document;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Objects;
import java.util.Properties;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** The texts of one language, by key. */
final class Texts {

  private static final Pattern PLACE = Pattern.compile("\\{(\\d)}");

  private final String file;
  private final Properties texts = new Properties();

  private Texts(String file) {
    this.file = file;
  }

  static Texts of(Language language) {
    Texts texts = new Texts("texts_" + language.shortName() + ".properties");
    try (InputStream in =
        Objects.requireNonNull(Texts.class.getResourceAsStream(texts.file), texts.file)) {
      texts.texts.load(new InputStreamReader(in, StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException("cannot read " + texts.file, e);
    }
    return texts;
  }

  Set<String> keys() {
    return new TreeSet<>(texts.stringPropertyNames());
  }

  String say(String key, Object... values) {
    String text = texts.getProperty(key);
    if (text == null) {
      throw new IllegalStateException(file + " has no text " + key);
    }
    return filled(text, values);
  }

  /** The text of a key, or of the other key if there is none; either filled with the original. */
  String find(String key, String other, String original) {
    @Nullable String text = texts.getProperty(key);
    return text == null ? say(other, original) : filled(text, original);
  }

  private static String filled(String text, Object... values) {
    Matcher matcher = PLACE.matcher(text);
    StringBuilder filled = new StringBuilder();
    while (matcher.find()) {
      matcher.appendReplacement(
          filled,
          Matcher.quoteReplacement(String.valueOf(values[Integer.parseInt(matcher.group(1))])));
    }
    return matcher.appendTail(filled).toString();
  }
}
