package org.understock.service.store;

import java.util.List;
import java.util.Optional;

/** The compiled revisions. */
public interface Snapshots {
  /** The latest revision. Held in memory: never touches the database. */
  Snapshot latest();

  /**
   * The evidence as of a revision; empty when there is no such revision. An older one is compiled
   * from the database when it is first asked for and kept for a while.
   *
   * @throws org.springframework.dao.DataAccessException when it has to be read and the database
   *     can't be reached
   */
  Optional<Snapshot> at(long revision);

  /** All revisions, newest first. Never touches the database. */
  List<Revision> revisions();
}
