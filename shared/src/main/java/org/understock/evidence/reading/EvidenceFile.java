package org.understock.evidence.reading;

import de.siegmar.fastcsv.writer.CsvWriter;
import java.io.Closeable;
import java.io.IOException;
import java.io.Writer;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.Canonical;
import org.understock.evidence.Context;
import org.understock.evidence.Ordering;
import org.understock.evidence.Source;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitRecord;
import org.understock.evidence.reading.EvidenceReader.Kind;
import org.understock.plant.Crop;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.trait.Trait;
import org.understock.trait.Traits;
import org.understock.trait.Value;

/**
 * Writes a file of evidence, row by row, in the form that {@link EvidenceReader} reads: every
 * record comes back with the same canonical text. Ids stand where a spelling might be taken for
 * another, every tag is written out, and texts that a spreadsheet would take for formulas are
 * guarded.
 */
public final class EvidenceFile implements Closeable {
  private final Kind kind;
  private final Traits traits;
  private final List<String> columns;
  private final CsvWriter csv;

  /** Writes the header. Closing the file closes the writer. */
  public EvidenceFile(Kind kind, Traits traits, Writer to) {
    this.kind = kind;
    this.traits = traits;
    this.columns = columns(kind);
    this.csv = CsvWriter.builder().build(to);
    csv.writeRecord(columns);
  }

  /**
   * The file in which a record is written: by its subject, and for a stock by whether it is a mean
   * of a trial.
   */
  public static Kind kindOf(TraitRecord record) {
    if (record.subject() instanceof Subject.OfVariety) return Kind.VARIETIES;
    if (record.subject() instanceof Subject.Pairing) return Kind.COMPATIBILITY;
    boolean mean =
        record.value() instanceof Value.Quantity
            && record.context().trial() != null
            && record.context().site() != null;
    return mean ? Kind.TRIAL_MEANS : Kind.RATINGS;
  }

  private static List<String> columns(Kind kind) {
    List<String> columns =
        new ArrayList<>(
            switch (kind) {
              case SOURCES -> CatalogueRows.SOURCES;
              case STOCKS -> CatalogueRows.STOCKS;
              case STOCK_NAMES -> CatalogueRows.STOCK_NAMES;
              case VARIETY_CATALOGUE -> CatalogueRows.VARIETIES;
              case VARIETY_NAMES -> CatalogueRows.VARIETY_NAMES;
              case TRIAL_MEANS -> TrialMeans.COLUMNS;
              case RATINGS -> Ratings.COLUMNS;
              case VARIETIES -> VarietyStatements.COLUMNS;
              case COMPATIBILITY -> Verdicts.COLUMNS;
              case ORDERINGS -> Orderings.COLUMNS;
            });
    columns.addAll(
        switch (kind) {
          case STOCKS, VARIETY_CATALOGUE -> CatalogueRows.SYNONYMS;
          case TRIAL_MEANS -> TrialMeans.OPTIONAL;
          case RATINGS -> Ratings.OPTIONAL;
          case VARIETIES -> VarietyStatements.OPTIONAL;
          case COMPATIBILITY -> Verdicts.OPTIONAL;
          default -> List.of();
        });
    return columns;
  }

  /** One record, as one row. */
  public void write(TraitRecord r) {
    if (kindOf(r) != kind)
      throw new IllegalArgumentException(
          "record " + r.id() + " belongs to " + kindOf(r).file() + ", not to " + kind.file());
    Fields fields =
        new Fields()
            .text("source_id", r.source())
            .text("crop", r.subject().crop().id())
            .text("method", r.method().id())
            .text("locator", r.locator())
            .text("note", r.note());
    context(fields, r.context());
    Trait trait = traits.get(r.trait());
    switch (kind) {
      case TRIAL_MEANS ->
          fields
              .text("stock", ((Subject.StockIn) r.subject()).stock())
              .text("trait", r.trait())
              .text("unit", trait.unit())
              .plain("value", Canonical.value(r.value()));
      case RATINGS ->
          rating(
              fields
                  .text("stock", ((Subject.StockIn) r.subject()).stock())
                  .text("trait", r.trait()),
              trait,
              r.value());
      case VARIETIES ->
          value(
              fields
                  .text("variety", ((Subject.OfVariety) r.subject()).variety())
                  .text("attribute", r.trait())
                  .text("unit", trait.unit()),
              "value",
              r.value());
      default -> {
        Subject.Pairing pairing = (Subject.Pairing) r.subject();
        fields
            .text("stock", pairing.stock())
            .text("variety", pairing.variety())
            .text("reach", word(pairing.reach()));
        value(fields, "verdict", r.value());
      }
    }
    fields.write();
  }

  private static void rating(Fields fields, Trait trait, Value value) {
    if (value instanceof Value.Quantity q) {
      fields
          .plain("value_low", Canonical.number(q.value()))
          .plain("value_high", Canonical.number(q.value()))
          .text("unit", trait.unit());
    } else if (value instanceof Value.Range r) {
      fields.plain("value_low", r.low() == null ? "" : Canonical.number(r.low()));
      fields
          .plain("value_high", r.high() == null ? "" : Canonical.number(r.high()))
          .text("unit", trait.unit());
    } else {
      fields.text("level", Canonical.value(value));
    }
  }

  private static void value(Fields fields, String column, Value value) {
    if (value instanceof Value.Quantity || value instanceof Value.Range) {
      fields.plain(column, Canonical.value(value));
    } else {
      fields.text(column, Canonical.value(value));
    }
  }

  private static void context(Fields fields, Context c) {
    fields
        .text("trial_id", c.trial())
        .text("site", c.site())
        .text("scion", c.scion())
        .number("planted_year", c.plantedYear())
        .number("measured_year", c.measuredYear())
        .number("n_trees", c.trees())
        .text("interstem", c.interstem())
        .number("age_years", c.ageYears())
        .text("relative_to", c.relativeTo());
    Context.Spread spread = c.spread();
    if (spread != null)
      fields
          .text("spread_kind", spread.kind().name())
          .plain("spread_value", Canonical.number(spread.value()));
  }

  public void write(Source s) {
    new Fields()
        .text("source_id", s.id())
        .text("kind", s.kind())
        .text("title", s.title())
        .text("authors_or_body", s.authorsOrBody())
        .text("year", s.year())
        .text("publication", s.publication())
        .text("doi_or_isbn", s.doiOrIsbn())
        .text("url", s.url())
        .text("note", s.note())
        .text("origin", s.origin())
        .write();
  }

  public void write(Stock s) {
    if (kind == Kind.STOCK_NAMES) {
      for (String name : s.synonyms())
        new Fields().text("stock", s.id()).text("name", name).write();
      return;
    }
    new Fields()
        .text("id", s.id())
        .text("name", s.name())
        .text("kind", word(s.kind()))
        .text("crops", String.join(" ", s.crops().stream().sorted().map(Crop::id).toList()))
        .text("clone_of", s.cloneOf())
        .text("synonyms", String.join(CatalogueRows.BAR, s.synonyms()))
        .write();
  }

  public void write(Variety v) {
    if (kind == Kind.VARIETY_NAMES) {
      for (String name : v.synonyms())
        new Fields().text("variety", v.id()).text("name", name).write();
      return;
    }
    new Fields()
        .text("id", v.id())
        .text("crop", v.crop().id())
        .text("name", v.name())
        .text("synonyms", String.join(CatalogueRows.BAR, v.synonyms()))
        .write();
  }

  public void write(Ordering o) {
    new Fields()
        .text("source_id", o.source())
        .text("trial_id", o.trial())
        .text("crop", o.crop().id())
        .text("scion", o.scion())
        .text("site", o.site())
        .text("trait", o.trait())
        .number("group", o.group())
        .text("stock", o.stock())
        .text("locator", o.locator())
        .text("note", o.note())
        .write();
  }

  private static String word(Enum<?> constant) {
    return constant.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  @Override
  public void close() throws IOException {
    csv.close();
  }

  /** One row on its way. */
  private final class Fields {
    private final Map<String, String> byColumn = new HashMap<>();

    Fields text(String column, @Nullable String text) {
      return plain(column, text == null ? "" : Formulas.guard(text));
    }

    Fields number(String column, @Nullable Integer number) {
      return plain(column, number == null ? "" : number.toString());
    }

    /** As it stands: figures, which a spreadsheet takes for figures. */
    Fields plain(String column, String field) {
      byColumn.put(column, field);
      return this;
    }

    void write() {
      csv.writeRecord(columns.stream().map(column -> byColumn.getOrDefault(column, "")).toList());
    }
  }
}
