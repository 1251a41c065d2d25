package org.understock.service.store;

import java.time.Instant;
import java.util.Optional;

/** Whether the snapshot in memory is known to be the latest. */
public interface Freshness {
  /**
   * While the database does not answer: when it last did. What has been accepted since is not in
   * the snapshot. Empty while the database answers. Never touches the database.
   */
  Optional<Instant> staleSince();
}
