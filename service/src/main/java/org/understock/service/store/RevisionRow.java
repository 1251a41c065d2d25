package org.understock.service.store;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Instant;
import org.hibernate.annotations.Immutable;
import org.jspecify.annotations.NullUnmarked;

/** A row of {@code revisions}. Filled by JPA. */
@Entity
@Immutable
@NullUnmarked
@Table(name = "revisions")
class RevisionRow {
  @Id long number;

  String digest;
  String note;

  @Column(name = "created_at")
  Instant createdAt;

  protected RevisionRow() {}
}
