package org.understock.evidence.reading;

import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.Context;
import org.understock.trait.Refusal;

/**
 * The columns that say where and when a value was measured; the same in every kind of statement
 * file.
 */
final class ContextColumns {
  static final List<String> ALL =
      List.of(
          "trial_id",
          "site",
          "scion",
          "planted_year",
          "measured_year",
          "n_trees",
          "spread_kind",
          "spread_value",
          "interstem",
          "age_years",
          "relative_to");

  private ContextColumns() {}

  static Context of(Row row) {
    return of(row, row.whole("age_years"), row.optional("relative_to"));
  }

  /** As the columns say, but with an age or another variety that the row tells in other words. */
  static Context of(Row row, @Nullable Integer ageYears, @Nullable String relativeTo) {
    return new Context(
        row.optional("trial_id"),
        row.optional("site"),
        row.optional("scion"),
        row.whole("planted_year"),
        row.whole("measured_year"),
        row.whole("n_trees"),
        spread(row),
        row.optional("interstem"),
        ageYears,
        relativeTo);
  }

  private static Context.@Nullable Spread spread(Row row) {
    String kind = row.text("spread_kind");
    OptionalDouble value = row.number("spread_value");
    if (kind.isEmpty() || kind.equals("none")) {
      if (value.isPresent())
        throw new Refusal.Conflict(
            "spread_kind",
            "a spread of " + value.getAsDouble() + " needs its kind: SE, SD, HSD or LSD");
      return null;
    }
    if (value.isEmpty())
      throw new Refusal.Conflict("spread_value", "spread " + kind + " needs its value");
    return new Context.Spread(
        CatalogueRows.word("spread_kind", kind.toLowerCase(Locale.ROOT), Context.Spread.Kind.class),
        value.getAsDouble());
  }
}
