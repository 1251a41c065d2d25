package org.understock.service.store;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import org.hibernate.annotations.Immutable;
import org.jspecify.annotations.NullUnmarked;

/**
 * The standing of a record: in which revisions it counts. What it says is read whole by the
 * engine's own reader. Filled by JPA.
 */
@Entity
@Immutable
@NullUnmarked
@Table(name = "records")
class RecordRow {
  @Id String id;

  String status;

  @Column(name = "revision_from")
  Long revisionFrom;

  @Column(name = "revision_to")
  Long revisionTo;

  protected RecordRow() {}
}
