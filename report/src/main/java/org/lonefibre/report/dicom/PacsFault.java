package org.lonefibre.report.dicom;

import java.io.IOException;
import java.io.Serial;

/** An archive that did not take the report; its message is one line with what to do. */
public final class PacsFault extends IOException {

  @Serial private static final long serialVersionUID = 1L;

  PacsFault(String message) {
    super(message);
  }
}
