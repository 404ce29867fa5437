package org.lonefibre.app.terminal;

import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.databind.ObjectWriter;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import org.lonefibre.report.document.KebabEnums;

/** The document of a command as JSON, in UTF-8. Thread rule: safe. */
public final class DocumentJson {

  private static final ObjectWriter WRITER = writer();

  private DocumentJson() {}

  private static ObjectWriter writer() {
    DefaultPrettyPrinter printer = new DefaultPrettyPrinter();
    printer.indentObjectsWith(new DefaultIndenter("  ", "\n"));
    return JsonMapper.builder().addModule(new KebabEnums()).build().writer(printer);
  }

  /** The bytes of a document, a record of records. */
  public static byte[] bytes(Object document) throws IOException {
    return (WRITER.writeValueAsString(document) + "\n").getBytes(StandardCharsets.UTF_8);
  }

  /** Prints a document to standard output and nothing else. */
  public static void print(Object document) throws IOException {
    PrintStream standard = System.out;
    standard.write(bytes(document));
    standard.flush();
    if (standard.checkError()) {
      throw new IOException("standard output was closed");
    }
  }
}
