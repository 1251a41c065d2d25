package org.understock.evidence.reading;

import java.util.Map;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import org.understock.plant.Crop;
import org.understock.trait.Refusal;

/** One row of a CSV file, its fields by column name. Refusals name the column. */
record Row(long line, Map<String, String> fields) {

  /** Trimmed text of a column; empty when the file has no such column. */
  String text(String column) {
    return fields.getOrDefault(column, "").strip();
  }

  /** As {@link #text}, null for empty. */
  @Nullable String optional(String column) {
    String text = text(column);
    return text.isEmpty() ? null : text;
  }

  /** @throws Refusal when the column is empty */
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

  /** A decimal number with an optional sign; nothing else that Java would take (no hexadecimal, no NaN). */
  static double parse(String column, String text) {
    if (!text.matches("[+-]?(\\d{1,15}(\\.\\d{1,15})?|\\.\\d{1,15})")) throw new Refusal.OutOfRange(column, "'" + text + "'", "a decimal number");
    return Double.parseDouble(text);
  }
}
