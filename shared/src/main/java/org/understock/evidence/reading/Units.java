package org.understock.evidence.reading;

import java.util.Set;
import org.understock.plant.Names;
import org.understock.trait.Refusal;
import org.understock.trait.Trait;

/** A row's trait, and whether its unit is that trait's. */
final class Units {
  /** Units of pure counts, which files leave empty. */
  private static final Set<String> COUNTS = Set.of("portions");

  private Units() {}

  static Trait trait(Catalogue catalogue, Row row, String column, String id) {
    return catalogue
        .traits()
        .find(id)
        .orElseThrow(
            () ->
                new Refusal.Unknown(
                    column,
                    id,
                    Names.closest(
                        id, catalogue.traits().all().stream().map(Trait::id).toList(), 3)));
  }

  /**
   * @throws Refusal when the row's unit is not the trait's: nothing is converted silently
   */
  static void check(Trait trait, Row row) {
    String unit = row.text("unit");
    if (unit.equals(trait.unit()) || unit.isEmpty() && COUNTS.contains(trait.unit())) return;
    throw new Refusal.OutOfRange(
        "unit",
        "'" + unit + "'",
        trait.unit().isEmpty()
            ? "empty for trait " + trait.id()
            : trait.unit() + " for trait " + trait.id());
  }
}
