package org.understock.service.curation;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.reading.EvidenceReader.Kind;

/**
 * A file that is to be imported.
 *
 * @param kind what its rows are; null for records of any kind, which only NDJSON can mix
 * @param lines whether it is NDJSON; otherwise it is CSV
 * @param allOrNothing whether one bad row refuses all
 * @param body where it lies
 * @param digest hexadecimal SHA-256 of its bytes
 */
record ImportOrder(
    @Nullable Kind kind,
    boolean lines,
    boolean allOrNothing,
    Path body,
    long bytes,
    String digest) {
  static final String RECORDS = "records";
  static final String CSV = "text/csv";
  static final String NDJSON = "application/x-ndjson";
  static final String ALL_OR_NOTHING = "all-or-nothing";
  static final String ROW_BY_ROW = "row-by-row";

  String kindId() {
    return kind == null ? RECORDS : kind.id();
  }

  String format() {
    return lines ? NDJSON : CSV;
  }

  String mode() {
    return allOrNothing ? ALL_OR_NOTHING : ROW_BY_ROW;
  }
}
