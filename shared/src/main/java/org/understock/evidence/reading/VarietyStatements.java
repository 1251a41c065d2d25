package org.understock.evidence.reading;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.Context;
import org.understock.evidence.Method;
import org.understock.evidence.RecordCheck;
import org.understock.evidence.Subject;
import org.understock.plant.Crop;
import org.understock.plant.Variety;
import org.understock.trait.Refusal;
import org.understock.trait.Trait;
import org.understock.trait.Value;

/**
 * {@code varieties.csv}: one statement about a variety's attribute. What is said of the {@code
 * species default} is said of every variety of the crop.
 *
 * <p>Ripening comes in four forms, each with its own trait: a day of the year or calendar words
 * ({@code harvest-day}), days or weeks from a named variety ({@code harvest-offset}, in days), and
 * words without a month ({@code harvest-season}). A figure may be a range, one end of it open.
 */
final class VarietyStatements implements Statements {
  static final List<String> COLUMNS =
      List.of("source_id", "crop", "variety", "attribute", "value", "unit", "locator", "note");
  static final List<String> OPTIONAL = Statements.optional(List.of("method"), COLUMNS);

  static final String WHOLE_CROP = "species default";

  private static final Pattern RELATIVE = Pattern.compile("(days|weeks) relative to (.+)");
  private static final Pattern AFTER = Pattern.compile("(\\d+)-(\\d+) days after (.+)");
  private static final Pattern WITH = Pattern.compile("with (\\p{Lu}.+)");
  private static final String NUMBER = "([+-]?\\d+(?:\\.\\d+)?)";
  private static final Pattern RANGE = Pattern.compile(NUMBER + "\\s*(?:-|\\bto\\b)\\s*" + NUMBER);

  /** As records print a range: {@code 2..3}, {@code 2..}, {@code ..3}. */
  private static final Pattern OPEN =
      Pattern.compile(NUMBER + "\\.\\." + NUMBER + "?|\\.\\." + NUMBER);

  private final Catalogue catalogue;

  VarietyStatements(Catalogue catalogue) {
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

  /** A trait, a value and the variety it is counted from. */
  private record Said(String trait, Value value, @Nullable String relativeTo) {}

  @Override
  public List<RecordCheck.Draft> drafts(Row row) {
    Method method = Statements.method(catalogue, row);
    List<Said> said = said(row);
    List<RecordCheck.Draft> drafts = new ArrayList<>();
    for (Crop crop : Statements.crops(row)) {
      boolean whole = row.required("variety").equals(WHOLE_CROP);
      String note =
          whole
              ? (row.text("note").isEmpty() ? "" : row.text("note") + "; ")
                  + "said of the crop as a whole"
              : row.text("note");
      for (String variety :
          whole ? varieties(crop) : List.of(Statements.variety(catalogue, crop, row))) {
        for (Said s : said) {
          Context context =
              s.relativeTo() == null ? ContextColumns.of(row) : relative(row, s.relativeTo());
          drafts.add(
              new RecordCheck.Draft(
                  new Subject.OfVariety(crop, variety),
                  s.trait(),
                  s.value(),
                  method,
                  row.required("source_id"),
                  row.text("locator"),
                  context,
                  note));
        }
      }
    }
    return drafts;
  }

  private List<String> varieties(Crop crop) {
    return catalogue.plants().varieties().stream()
        .filter(v -> v.crop() == crop)
        .map(Variety::id)
        .toList();
  }

  private static Context relative(Row row, String to) {
    if (!row.text("relative_to").isEmpty())
      throw new Refusal.Conflict("relative_to", "the variety it is counted from is named twice");
    return ContextColumns.of(row, row.whole("age_years"), to);
  }

  private List<Said> said(Row row) {
    String attribute = row.required("attribute");
    String value = row.required("value");
    Matcher relative = RELATIVE.matcher(row.text("unit"));
    if (relative.matches()) {
      double factor = relative.group(1).equals("weeks") ? 7 : 1;
      return List.of(
          new Said(
              attribute.equals("harvest-season") ? "harvest-offset" : attribute,
              figure(value, factor),
              relative.group(2)));
    }
    if (attribute.equals("harvest-season")) return List.of(season(row, value));
    Trait trait = Units.trait(catalogue, row, "attribute", attribute);
    Units.check(trait, row);
    return switch (trait.scale()) {
      case LEVELS -> List.of(new Said(trait.id(), new Value.Level(value), null));
      case NAMES ->
          Arrays.stream(value.split("\\s*,\\s*"))
              .map(name -> new Said(trait.id(), new Value.Name(name), null))
              .toList();
      case CONTRAST, QUANTITY, INTERVAL -> List.of(new Said(trait.id(), figure(value, 1), null));
    };
  }

  private Said season(Row row, String value) {
    if (catalogue.traits().find("harvest-season").map(t -> t.levelIndex(value) >= 0).orElse(false)
        && row.text("unit").isEmpty()) {
      return new Said("harvest-season", new Value.Level(value), null);
    }
    if (row.text("unit").equals("day of year"))
      return new Said("harvest-day", figure(value, 1), null);
    if (!row.text("unit").isEmpty())
      throw new Refusal.OutOfRange(
          "unit",
          "'" + row.text("unit") + "'",
          "empty, day of year, or days or weeks relative to a variety");
    Matcher after = AFTER.matcher(value);
    if (after.matches())
      return new Said(
          "harvest-offset",
          new Value.Range(Double.valueOf(after.group(1)), Double.valueOf(after.group(2))),
          after.group(3));
    Matcher with = WITH.matcher(value);
    if (with.matches()) return new Said("harvest-offset", new Value.Quantity(0), with.group(1));
    Optional<Value> level = SeasonWords.level(value);
    if (level.isPresent()) return new Said("harvest-season", level.get(), null);
    return new Said(
        "harvest-day",
        SeasonWords.days(value)
            .orElseThrow(
                () ->
                    new Refusal.OutOfRange(
                        "value",
                        "'" + value + "'",
                        "a time of ripening such as Jul 10, late Aug or mid to late")),
        null);
  }

  private static Value figure(String text, double factor) {
    if (OPEN.matcher(text).matches()) {
      int dots = text.indexOf("..");
      return new Value.Range(
          dots == 0 ? null : Double.valueOf(text.substring(0, dots)) * factor,
          dots + 2 == text.length() ? null : Double.valueOf(text.substring(dots + 2)) * factor);
    }
    Matcher range = RANGE.matcher(text);
    if (!range.matches()) return new Value.Quantity(Row.parse("value", text) * factor);
    double a = Double.parseDouble(range.group(1)) * factor;
    double b = Double.parseDouble(range.group(2)) * factor;
    return new Value.Range(Math.min(a, b), Math.max(a, b));
  }
}
