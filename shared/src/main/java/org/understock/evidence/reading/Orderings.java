package org.understock.evidence.reading;

import java.util.List;
import org.understock.evidence.Ordering;
import org.understock.trait.Refusal;

/** {@code orderings.csv}: published orders of stocks without figures. */
final class Orderings {
  static final List<String> COLUMNS =
      List.of(
          "source_id",
          "trial_id",
          "crop",
          "scion",
          "site",
          "trait",
          "group",
          "stock",
          "locator",
          "note");

  private Orderings() {}

  static Ordering of(Catalogue catalogue, Row row) {
    Integer group = row.whole("group");
    if (group == null) throw new Refusal.OutOfRange("group", "empty", "a whole number from 1");
    return new Ordering(
        Statements.source(catalogue, row).id(),
        row.required("trial_id"),
        row.crop(),
        row.required("scion"),
        row.required("site"),
        Units.trait(catalogue, row, "trait", row.required("trait")).id(),
        group,
        Statements.stock(catalogue, row, "stock"),
        row.text("locator"),
        row.text("note"));
  }

  /** What makes two places the same: all but locator and note. */
  static String key(Ordering o) {
    return String.join(
        "\n",
        "ordering",
        o.source(),
        o.trial(),
        o.crop().id(),
        o.scion(),
        o.site(),
        o.trait(),
        Integer.toString(o.group()),
        o.stock());
  }
}
