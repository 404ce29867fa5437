package org.lonefibre.app.inspect;

import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.databind.ObjectWriter;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import org.lonefibre.report.document.KebabEnums;

/** An inspection as JSON, in UTF-8. Thread rule: safe. */
final class InspectionJson {

  private static final ObjectWriter WRITER = writer();

  private InspectionJson() {}

  private static ObjectWriter writer() {
    DefaultPrettyPrinter printer = new DefaultPrettyPrinter();
    printer.indentObjectsWith(new DefaultIndenter("  ", "\n"));
    return JsonMapper.builder().addModule(new KebabEnums()).build().writer(printer);
  }

  static byte[] bytes(Inspection inspection) throws IOException {
    return (WRITER.writeValueAsString(inspection) + "\n").getBytes(StandardCharsets.UTF_8);
  }
}
