package org.understock.service.store;

import jakarta.persistence.Column;
import jakarta.persistence.ColumnResult;
import jakarta.persistence.ConstructorResult;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.SqlResultSetMapping;
import jakarta.persistence.Table;
import java.time.Instant;
import org.hibernate.annotations.Immutable;
import org.jspecify.annotations.NullUnmarked;

/** A row of {@code revisions}. Filled by JPA. */
@Entity
@Immutable
@NullUnmarked
@Table(name = "revisions")
@SqlResultSetMapping(
    name = RevisionRow.COUNTED,
    classes =
        @ConstructorResult(
            targetClass = Revision.class,
            columns = {
              @ColumnResult(name = "number", type = long.class),
              @ColumnResult(name = "digest", type = String.class),
              @ColumnResult(name = "created_at", type = Instant.class),
              @ColumnResult(name = "note", type = String.class),
              @ColumnResult(name = "records", type = long.class)
            }))
class RevisionRow {
  /** A {@link Revision}: the row and how many records count as of it. */
  static final String COUNTED = "counted";

  @Id long number;

  String digest;
  String note;

  @Column(name = "created_at")
  Instant createdAt;

  protected RevisionRow() {}
}
