package org.understock.evidence.reading;

import java.util.List;
import java.util.Map;

/** From the field that a check names to the column of the file that holds it. */
final class Columns {
  private static final Map<String, List<String>> BY_FIELD = Map.of(
      "subject", List.of("variety", "stock"),
      "trait", List.of("trait", "attribute", "verdict"),
      "value", List.of("value", "level", "verdict", "value_low"),
      "source", List.of("source_id"),
      "context.plantedYear", List.of("planted_year"),
      "context.measuredYear", List.of("measured_year"),
      "context.trees", List.of("n_trees"),
      "context.spread.value", List.of("spread_value"),
      "context.relativeTo", List.of("unit"),
      "context.ageYears", List.of("note"));

  private Columns() {}

  static String of(String field, Row row) {
    for (String column : BY_FIELD.getOrDefault(field, List.of(field))) if (row.fields().containsKey(column)) return column;
    return "";
  }
}
