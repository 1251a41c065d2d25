package org.understock.evidence.reading;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.understock.evidence.Context;
import org.understock.evidence.Method;
import org.understock.evidence.RecordCheck;
import org.understock.evidence.Subject;
import org.understock.plant.Crop;
import org.understock.trait.Refusal;
import org.understock.trait.Trait;
import org.understock.trait.Value;

/**
 * {@code ratings.csv}: one statement about a stock: a level, a value or a range.
 *
 * <p>Some ratings are read from a measured share ("25 % of the trees died: moderately resistant").
 * The level then goes to the trait and the figure to the measured trait that the column {@code
 * measured_as} names: a share of dead trees and a share of blighted shoot are different quantities,
 * and neither is a level. The same column sends a figure that is printed under one word but means
 * another (root temperatures) to its own trait.
 */
final class Ratings implements Statements {
  static final List<String> COLUMNS =
      List.of(
          "source_id",
          "crop",
          "stock",
          "trait",
          "level",
          "value_low",
          "value_high",
          "unit",
          "locator",
          "note");
  static final List<String> OPTIONAL =
      Statements.optional(List.of("measured_as", "method"), COLUMNS);

  private static final Pattern AGE = Pattern.compile("^age=(\\d{1,3})\\b");

  private final Catalogue catalogue;

  Ratings(Catalogue catalogue) {
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
  public List<RecordCheck.Draft> drafts(Row row) {
    Trait trait = Units.trait(catalogue, row, "trait", row.required("trait"));
    String level = row.text("level");
    boolean figure = !row.text("value_low").isEmpty() || !row.text("value_high").isEmpty();
    if (level.isEmpty() && !figure)
      throw new Refusal.Conflict("level", "a rating needs a level or a value");
    String stock = Statements.stock(catalogue, row, "stock");
    Method method = Statements.method(catalogue, row);
    Context context = context(row);
    List<RecordCheck.Draft> drafts = new ArrayList<>();
    for (Crop crop : Statements.crops(row)) {
      Subject subject = new Subject.StockIn(crop, stock);
      Value word =
          trait.scale() == Trait.Scale.NAMES ? new Value.Name(level) : new Value.Level(level);
      if (!level.isEmpty()) drafts.add(draft(row, subject, trait, word, method, context));
      if (figure) {
        Trait measured = measured(row, trait);
        Units.check(measured, row);
        drafts.add(draft(row, subject, measured, figure(row), method, context));
      }
    }
    return drafts;
  }

  private Trait measured(Row row, Trait trait) {
    String other = row.text("measured_as");
    if (!other.isEmpty()) return Units.trait(catalogue, row, "measured_as", other);
    if (trait.scale() == Trait.Scale.LEVELS) {
      throw new Refusal.Conflict(
          "measured_as",
          "trait "
              + trait.id()
              + " is rated in levels; a figure beside it needs the measured trait it belongs to");
    }
    return trait;
  }

  private static RecordCheck.Draft draft(
      Row row, Subject subject, Trait trait, Value value, Method method, Context context) {
    return new RecordCheck.Draft(
        subject,
        trait.id(),
        value,
        method,
        row.required("source_id"),
        row.text("locator"),
        context,
        row.text("note"));
  }

  private static Value figure(Row row) {
    OptionalDouble low = row.number("value_low");
    OptionalDouble high = row.number("value_high");
    if (low.isPresent() && high.isPresent() && low.getAsDouble() == high.getAsDouble())
      return new Value.Quantity(low.getAsDouble());
    if (low.isPresent() && high.isPresent() && low.getAsDouble() > high.getAsDouble()) {
      throw new Refusal.OutOfRange(
          "value_high", high.getAsDouble(), "value_low (" + low.getAsDouble() + ") or more");
    }
    return new Value.Range(
        low.isPresent() ? low.getAsDouble() : null, high.isPresent() ? high.getAsDouble() : null);
  }

  /**
   * Where a file has no column for it, yields at an age carry the age at the head of the note, as
   * {@code age=5}.
   */
  private static Context context(Row row) {
    if (row.has("age_years")) return ContextColumns.of(row);
    Matcher age = AGE.matcher(row.text("note"));
    return ContextColumns.of(
        row, age.find() ? Integer.valueOf(age.group(1)) : null, row.optional("relative_to"));
  }
}
