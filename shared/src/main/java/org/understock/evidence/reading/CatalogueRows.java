package org.understock.evidence.reading;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import org.understock.evidence.Source;
import org.understock.plant.Crop;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.trait.Refusal;
import org.understock.trait.Trait;

/**
 * Columns and rows of the files of the catalogue: traits, stocks, varieties, their other spellings,
 * sources.
 */
final class CatalogueRows {
  static final List<String> TRAITS =
      List.of("id", "name", "definition", "subjects", "scale", "unit", "min", "max", "levels");
  static final List<String> STOCKS = List.of("id", "name", "kind", "crops", "clone_of");
  static final List<String> STOCK_NAMES = List.of("stock", "name", "note");
  static final List<String> VARIETIES = List.of("id", "crop", "name");
  static final List<String> VARIETY_NAMES = List.of("variety", "name", "note");
  static final List<String> SOURCES =
      List.of(
          "source_id",
          "kind",
          "title",
          "authors_or_body",
          "year",
          "publication",
          "doi_or_isbn",
          "url",
          "note",
          "origin");

  /**
   * Other spellings in the row of the plant itself, parted by bars; they may also stand in files of
   * their own.
   */
  static final List<String> SYNONYMS = List.of("synonyms");

  static final String BAR = " | ";

  private static final Pattern BARS = Pattern.compile("\\s*\\|\\s*");

  private CatalogueRows() {}

  static Trait trait(Row row) {
    EnumSet<Trait.SubjectKind> subjects = EnumSet.noneOf(Trait.SubjectKind.class);
    for (String word : row.required("subjects").split(" "))
      subjects.add(word("subjects", word, Trait.SubjectKind.class));
    String levels = row.text("levels");
    return new Trait(
        row.required("id"),
        row.required("name"),
        row.required("definition"),
        subjects,
        word("scale", row.required("scale"), Trait.Scale.class),
        row.text("unit"),
        row.number("min").orElse(0),
        row.number("max").orElse(0),
        levels.isEmpty() ? List.of() : List.of(levels.split(" ")));
  }

  /**
   * @param names spellings from a file of their own
   */
  static Stock stock(Row row, List<String> names) {
    EnumSet<Crop> crops = EnumSet.noneOf(Crop.class);
    for (String crop : row.required("crops").split("\\s+")) crops.add(Crop.of(crop));
    return new Stock(
        row.required("id"),
        row.required("name"),
        word("kind", row.required("kind"), Stock.Kind.class),
        crops,
        row.optional("clone_of"),
        synonyms(row, names));
  }

  /**
   * @param names spellings from a file of their own
   */
  static Variety variety(Row row, List<String> names) {
    return new Variety(row.required("id"), row.crop(), row.required("name"), synonyms(row, names));
  }

  private static List<String> synonyms(Row row, List<String> names) {
    String given = row.text("synonyms");
    return given.isEmpty()
        ? names
        : java.util.stream.Stream.concat(names.stream(), Arrays.stream(BARS.split(given)))
            .distinct()
            .toList();
  }

  static Source source(Row row) {
    String year = row.text("year");
    return new Source(
        row.required("source_id"),
        row.required("kind"),
        row.required("title"),
        row.text("authors_or_body"),
        year.isEmpty() || year.equals("n.d.") ? null : year,
        row.text("publication"),
        row.optional("doi_or_isbn"),
        row.optional("url"),
        row.text("note"),
        row.optional("origin"));
  }

  static <E extends Enum<E>> E word(String field, String word, Class<E> type) {
    try {
      return Enum.valueOf(type, word.toUpperCase(Locale.ROOT).replace('-', '_'));
    } catch (IllegalArgumentException e) {
      throw new Refusal.Unknown(
          field,
          word,
          Arrays.stream(type.getEnumConstants())
              .map(c -> c.name().toLowerCase(Locale.ROOT).replace('_', '-'))
              .toList());
    }
  }
}
