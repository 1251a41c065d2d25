package org.understock.service.problem;

import java.sql.SQLException;
import org.jspecify.annotations.Nullable;

/**
 * Tells a database that is away from a fault of ours, by what the driver said: a connection that
 * breaks in mid-transaction comes up wrapped in whatever was tried last.
 */
final class DatabaseAway {
  private static final String READ_ONLY = "25006"; // the server is a standby by now

  private DatabaseAway() {}

  static boolean caused(Throwable fault) {
    for (@Nullable Throwable cause = fault; cause != null; cause = cause.getCause()) {
      if (cause instanceof SQLException sql && away(sql)) return true;
    }
    return false;
  }

  private static boolean away(SQLException fault) {
    String state = fault.getSQLState();
    // The server and the driver always name a state. Without one it is the pool that speaks: no
    // connection came free, or the one in use broke and
    // can't even be rolled back.
    if (state == null) return true;
    // Classes of the standard and of PostgreSQL: connection, resources, an operator's shutdown.
    return state.startsWith("08")
        || state.startsWith("53")
        || state.startsWith("57P")
        || state.equals(READ_ONLY);
  }
}
