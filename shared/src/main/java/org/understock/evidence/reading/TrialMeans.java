package org.understock.evidence.reading;

import java.util.List;
import org.understock.evidence.Context;
import org.understock.evidence.Method;
import org.understock.evidence.RecordCheck;
import org.understock.evidence.Subject;
import org.understock.plant.Crop;
import org.understock.trait.Trait;
import org.understock.trait.Value;

/** {@code trial-means.csv}: one mean of one stock at one site of one trial. */
final class TrialMeans implements Statements {
  static final List<String> COLUMNS =
      List.of(
          "source_id",
          "trial_id",
          "crop",
          "scion",
          "site",
          "planted_year",
          "measured_year",
          "stock",
          "trait",
          "value",
          "unit",
          "n_trees",
          "spread_kind",
          "spread_value",
          "locator");
  static final List<String> OPTIONAL = Statements.optional(List.of("note", "method"), COLUMNS);

  private static final long SEVERAL = -1;

  private final Catalogue catalogue;

  /** Where each trial stood: one site, or {@link #SEVERAL}. */
  private final Places siteOfTrial = new Places();

  TrialMeans(Catalogue catalogue) {
    this.catalogue = catalogue;
  }

  @Override
  public List<String> columns() {
    return COLUMNS;
  }

  @Override
  public List<String> optionalColumns() {
    return OPTIONAL;
  }

  @Override
  public boolean surveys() {
    return true;
  }

  @Override
  public void survey(Row row) {
    long site = siteOfTrial.hash(row.text("site")) >>> 1 | 1; // above 0, so never SEVERAL
    long known = siteOfTrial.get(row.text("trial_id"));
    siteOfTrial.put(row.text("trial_id"), known == Places.NONE || known == site ? site : SEVERAL);
  }

  @Override
  public List<RecordCheck.Draft> drafts(Row row) {
    Trait trait = Units.trait(catalogue, row, "trait", row.required("trait"));
    Units.check(trait, row);
    Value value = new Value.Quantity(Row.parse("value", row.required("value")));
    row.required("trial_id");
    row.required("site");
    Context context = ContextColumns.of(row);
    String stock = Statements.stock(catalogue, row, "stock");
    Method method = method(row);
    return Statements.crops(row).stream()
        .map(
            (Crop crop) ->
                new RecordCheck.Draft(
                    new Subject.StockIn(crop, stock),
                    trait.id(),
                    value,
                    method,
                    row.required("source_id"),
                    row.text("locator"),
                    context,
                    row.text("note")))
        .toList();
  }

  private Method method(Row row) {
    String given = row.text("method");
    if (!given.isEmpty()) return Method.of(given);
    boolean several = siteOfTrial.get(row.text("trial_id")) == SEVERAL;
    return MethodRule.ofTrialMean(
        Statements.source(catalogue, row), several || row.text("site").equals(Context.ALL_SITES));
  }
}
