package org.understock.migrations;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.util.Collections;
import org.jspecify.annotations.Nullable;

/** Inserts rows into one table, some hundreds at a time. */
final class Batch implements AutoCloseable {
  private static final int SIZE = 500;

  private final PreparedStatement statement;
  private final int columns;
  private int waiting;

  /**
   * @param columns comma-separated names, in the order of the values given to {@link #add}
   */
  Batch(Connection connection, String table, String columns) throws SQLException {
    this(connection, table, columns, "");
  }

  /**
   * @param otherwise what to do with a row that is there already, such as {@code on conflict do
   *     nothing}
   */
  Batch(Connection connection, String table, String columns, String otherwise) throws SQLException {
    this.columns = columns.split(",").length;
    String marks = String.join(", ", Collections.nCopies(this.columns, "?"));
    statement =
        connection.prepareStatement(
            "insert into " + table + " (" + columns + ") values (" + marks + ") " + otherwise);
  }

  void add(@Nullable Object... values) throws SQLException {
    if (values.length != columns)
      throw new IllegalArgumentException(values.length + " values for " + columns + " columns");
    for (int i = 0; i < values.length; i++) statement.setObject(i + 1, values[i]);
    statement.addBatch();
    if (++waiting == SIZE) flush();
  }

  /** Sends what is left. Rows of a batch that was not closed in order are not sent. */
  void flush() throws SQLException {
    if (waiting > 0) statement.executeBatch();
    waiting = 0;
  }

  @Override
  public void close() throws SQLException {
    statement.close();
  }
}
