package org.lonefibre.formats.edf;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;

/**
 * How many records are used, and what is said when the header and the file differ.
 *
 * <ul>
 *   <li>Fewer in the file than declared, or none declared (-1): the whole ones there are used.
 *   <li>More in the file than declared: they are used if they can be told to be records, that is if
 *       each begins with its time (EDF+), or if nothing but whole records is there (EDF).
 *   <li>Bytes that are left over are left out and counted.
 * </ul>
 */
final class EdfRecords {

  final long used;
  final List<Finding> findings;

  EdfRecords(EdfHeader header, EdfSamples samples, long fileBytes) throws IOException {
    long declared = header.declaredRecords;
    if (declared < -1) {
      throw EdfHeader.fault(
          header.file, 236, "number of records", "-1 or more", Long.toString(declared));
    }
    long there = Math.max(0, fileBytes - header.headerBytes);
    long whole = there / header.recordBytes;
    used = declared >= 0 && whole > declared ? trusted(header, samples, declared, there) : whole;
    long rest = there - used * header.recordBytes;
    List<Finding> noticed = new ArrayList<>();
    if (declared != used) {
      noticed.add(
          Finding.caution(
              FindingCode.RECORD_COUNT,
              "The header declares "
                  + (declared < 0 ? "no number of" : Long.toString(declared))
                  + " records, the file holds "
                  + whole
                  + " whole ones; "
                  + used
                  + " are used.",
              Evidence.NONE));
    }
    if (rest > 0) {
      noticed.add(
          Finding.caution(
              FindingCode.TRAILING_BYTES,
              rest + " bytes after the last record used are left out.",
              Evidence.NONE));
    }
    findings = List.copyOf(noticed);
  }

  private static long trusted(EdfHeader header, EdfSamples samples, long declared, long there)
      throws IOException {
    long whole = there / header.recordBytes;
    Optional<EdfHeader.Signal> times =
        header.signals.stream().filter(EdfHeader.Signal::isAnnotation).findFirst();
    if (times.isEmpty()) {
      return there % header.recordBytes == 0 ? whole : declared;
    }
    long record = declared;
    while (record < whole && EdfAnnotations.startsWithTime(samples.bytes(record, times.get()))) {
      record++;
    }
    return record;
  }
}
