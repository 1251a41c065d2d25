package org.understock.service.curation;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.TraitRecord;

/**
 * A record with its standing and its people.
 *
 * @param status proposed, accepted, rejected, withdrawn or superseded
 * @param version 0 at first, one more with every change
 * @param supersedes the accepted record that this one takes the place of
 * @param revisionFrom the first revision that contains it
 * @param revisionTo the first revision that no longer contains it
 */
record FiledRecord(
    TraitRecord record,
    String status,
    long version,
    @Nullable String supersedes,
    String proposedBy,
    Instant proposedAt,
    @Nullable String editedBy,
    @Nullable Instant editedAt,
    @Nullable String reviewedBy,
    @Nullable Instant reviewedAt,
    @Nullable String reviewNote,
    @Nullable Long revisionFrom,
    @Nullable Long revisionTo) {

  /** Whether the record says what this person wrote. */
  boolean writtenBy(String actor) {
    return actor.equals(proposedBy) || actor.equals(editedBy);
  }
}
