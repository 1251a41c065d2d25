package org.understock.evidence.reading;

import java.util.Map;
import java.util.OptionalDouble;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.understock.plant.Crop;
import org.understock.trait.Refusal;

/** One row of a CSV file, its fields by column name. Refusals name the column. */
record Row(long line, Map<String, String> fields) {
  /** The plainest notation of the smallest double has some 1 080 digits. */
  private static final int LONGEST_NUMBER = 1100;

  private static final Pattern NUMBER = Pattern.compile("[+-]?(\\d+(\\.\\d+)?|\\.\\d+)");
  private static final Pattern COMMA = Pattern.compile("[+-]?\\d+,\\d+");

  /**
   * Trimmed text of a column, without the apostrophe that guards it from being a formula; empty
   * when the file has no such column.
   */
  String text(String column) {
    return Formulas.unguard(fields.getOrDefault(column, "").strip());
  }

  /** Whether the file has a column, filled or not. */
  boolean has(String column) {
    return fields.containsKey(column);
  }

  /** As {@link #text}, null for empty. */
  @Nullable String optional(String column) {
    String text = text(column);
    return text.isEmpty() ? null : text;
  }

  /**
   * @throws Refusal when the column is empty
   */
  String required(String column) {
    String text = text(column);
    if (text.isEmpty()) throw new Refusal.OutOfRange(column, "empty", "given");
    return text;
  }

  OptionalDouble number(String column) {
    String text = text(column);
    return text.isEmpty() ? OptionalDouble.empty() : OptionalDouble.of(parse(column, text));
  }

  @Nullable Integer whole(String column) {
    String text = text(column);
    if (text.isEmpty()) return null;
    try {
      return Integer.valueOf(text);
    } catch (NumberFormatException e) {
      throw new Refusal.OutOfRange(column, "'" + text + "'", "a whole number");
    }
  }

  Crop crop() {
    return Crop.of(required("crop"));
  }

  /**
   * A decimal number with an optional sign; nothing else that Java would take (no hexadecimal, no
   * NaN).
   */
  static double parse(String column, String text) {
    if (text.length() <= LONGEST_NUMBER && NUMBER.matcher(text).matches())
      return Double.parseDouble(text);
    String given = "'" + (text.length() > 40 ? text.substring(0, 40) + "…" : text) + "'";
    if (COMMA.matcher(text).matches())
      throw new Refusal.OutOfRange(
          column, given, "a decimal number with a point: " + text.replace(',', '.'));
    if (text.startsWith("="))
      throw new Refusal.OutOfRange(
          column, given, "a decimal number; put the value there instead of the formula");
    throw new Refusal.OutOfRange(column, given, "a decimal number");
  }
}
