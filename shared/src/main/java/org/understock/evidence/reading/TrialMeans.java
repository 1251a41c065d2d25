package org.understock.evidence.reading;

import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.Context;
import org.understock.evidence.Method;
import org.understock.evidence.RecordCheck;
import org.understock.evidence.Subject;
import org.understock.plant.Crop;
import org.understock.trait.Refusal;
import org.understock.trait.Trait;
import org.understock.trait.Value;

/** {@code trial-means.csv}: one mean of one stock at one site of one trial. */
final class TrialMeans implements Statements {
  private final Catalogue catalogue;
  private final Map<String, Set<String>> sitesByTrial = new HashMap<>();

  TrialMeans(Catalogue catalogue) {
    this.catalogue = catalogue;
  }

  @Override
  public List<String> columns() {
    return List.of("source_id", "trial_id", "crop", "scion", "site", "planted_year", "measured_year", "stock", "trait", "value", "unit", "n_trees",
        "spread_kind", "spread_value", "locator");
  }

  @Override
  public List<String> optionalColumns() {
    return List.of("note", "method");
  }

  @Override
  public void survey(List<Row> rows) {
    sitesByTrial.clear();
    for (Row row : rows) sitesByTrial.computeIfAbsent(row.text("trial_id"), t -> new HashSet<>()).add(row.text("site"));
  }

  @Override
  public List<RecordCheck.Draft> drafts(Row row) {
    Trait trait = Units.trait(catalogue, row, "trait", row.required("trait"));
    Units.check(trait, row);
    Value value = new Value.Quantity(Row.parse("value", row.required("value")));
    Context context = new Context(row.required("trial_id"), row.required("site"), row.optional("scion"), row.whole("planted_year"),
        row.whole("measured_year"), row.whole("n_trees"), spread(row), null, null, null);
    String stock = Statements.stock(catalogue, row, "stock");
    Method method = method(row);
    return Statements.crops(row).stream().map((Crop crop) -> new RecordCheck.Draft(
        new Subject.StockIn(crop, stock), trait.id(), value, method, row.required("source_id"), row.text("locator"), context, row.text("note")))
            .toList();
  }

  private Method method(Row row) {
    String given = row.text("method");
    if (!given.isEmpty()) return Method.of(given);
    Set<String> sites = sitesByTrial.getOrDefault(row.text("trial_id"), Set.of());
    return MethodRule.ofTrialMean(Statements.source(catalogue, row), sites.size() > 1 || row.text("site").equals(Context.ALL_SITES));
  }

  private static Context.@Nullable Spread spread(Row row) {
    String kind = row.text("spread_kind");
    OptionalDouble value = row.number("spread_value");
    if (kind.isEmpty() || kind.equals("none")) {
      if (value.isPresent()) throw new Refusal.Conflict("spread_kind", "a spread of " + value.getAsDouble() + " needs its kind: SE, SD, HSD or LSD");
      return null;
    }
    if (value.isEmpty()) throw new Refusal.Conflict("spread_value", "spread " + kind + " needs its value");
    return new Context.Spread(Catalogue.word("spread_kind", kind.toLowerCase(Locale.ROOT), Context.Spread.Kind.class), value.getAsDouble());
  }
}
