package org.understock.evidence;

/**
 * Why a row was refused.
 *
 * @param file name of the file
 * @param line line on which the row starts, 1 = header
 * @param column the column at fault, or empty when it is the row as a whole
 * @param text what is wrong, what was given, what would be right
 */
public record Problem(String file, long line, String column, String text) {
  /** {@code file:line, column: text}. */
  @Override
  public String toString() {
    return file + ":" + line + (column.isEmpty() ? "" : ", " + column) + ": " + text;
  }
}
