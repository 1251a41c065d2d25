package org.understock.evidence.reading;

import java.util.List;
import java.util.Locale;
import java.util.Map;

/** From the field that a check names to the column of the file that holds it. */
final class Columns {
  private static final Map<String, List<String>> BY_FIELD =
      Map.ofEntries(
          Map.entry("subject", List.of("variety", "stock")),
          Map.entry("trait", List.of("trait", "attribute", "verdict")),
          Map.entry("value", List.of("value", "level", "verdict", "value_low")),
          Map.entry("context.trial", List.of("trial_id")),
          Map.entry("context.site", List.of("site")),
          Map.entry("context.scion", List.of("scion")),
          Map.entry("context.interstem", List.of("interstem")),
          Map.entry("source", List.of("source_id")),
          Map.entry("id", List.of("id", "source_id")),
          Map.entry("context.plantedYear", List.of("planted_year")),
          Map.entry("context.measuredYear", List.of("measured_year")),
          Map.entry("context.trees", List.of("n_trees")),
          Map.entry("context.spread.value", List.of("spread_value")),
          Map.entry("context.relativeTo", List.of("relative_to", "unit")),
          Map.entry("context.ageYears", List.of("age_years", "note")));

  private Columns() {}

  static String of(String field, Row row) {
    String snake = field.replaceAll("([a-z])([A-Z])", "$1_$2").toLowerCase(Locale.ROOT);
    List<String> columns =
        BY_FIELD.getOrDefault(field, List.of(field, snake)).stream().filter(row::has).toList();
    return columns.stream()
        .filter(column -> !row.text(column).isEmpty())
        .findFirst()
        .orElse(columns.isEmpty() ? "" : columns.get(0));
  }
}
