package org.understock.evidence.reading;

import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.function.Consumer;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.Ordering;
import org.understock.evidence.Problem;
import org.understock.evidence.RecordCheck;
import org.understock.evidence.Source;
import org.understock.evidence.TraitRecord;
import org.understock.plant.Names;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.trait.Refusal;

/**
 * Reads files of evidence, row by row, into a sink. Every row is either read whole or refused with
 * its file, line, column and reason; what two rows say twice over is refused the second time. No
 * row is kept: a file of any length is read in the same memory, but for some bytes a row by which
 * repetitions are known.
 *
 * <p>Not thread-safe: one reader reads the files of one reading.
 */
public final class EvidenceReader {

  /** The kinds of files, by the name of the file without its ending. */
  public enum Kind {
    SOURCES,
    STOCKS,
    STOCK_NAMES,
    VARIETY_CATALOGUE,
    VARIETY_NAMES,
    TRIAL_MEANS,
    RATINGS,
    VARIETIES,
    COMPATIBILITY,
    ORDERINGS;

    /**
     * The kinds that state something about what the catalogue holds, in the order in which they are
     * read.
     */
    public static final List<Kind> STATEMENTS =
        List.of(TRIAL_MEANS, RATINGS, VARIETIES, COMPATIBILITY, ORDERINGS);

    /** The kinds whose rows become records. */
    public static final List<Kind> RECORDS =
        List.of(TRIAL_MEANS, RATINGS, VARIETIES, COMPATIBILITY);

    /** Slug: {@code trial-means}. */
    public String id() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** Usual name of the file: {@code trial-means.csv}. */
    public String file() {
      return id() + ".csv";
    }
  }

  /**
   * How one file fared.
   *
   * @param rows rows below the header
   * @param refused rows that were refused
   * @param read entries handed on; a row may make several
   */
  public record Tally(String file, int rows, int refused, int read) {}

  private final Catalogue catalogue;
  private final RecordCheck check;
  private final Places places = new Places();
  private final List<String> files = new ArrayList<>();

  public EvidenceReader(Catalogue catalogue) {
    this.catalogue = catalogue;
    this.check = new RecordCheck(catalogue.traits(), catalogue.plants(), catalogue.sources());
  }

  /**
   * Reads one file.
   *
   * @param file name for problems
   * @param bytes opens the file; kinds whose rows must know of each other are read twice
   * @param sink told of every row; may throw, which ends the reading
   */
  public Tally read(Kind kind, String file, Supplier<? extends InputStream> bytes, Sink sink) {
    files.add(file);
    return new Reading(kind, file, bytes, sink).run();
  }

  /** One file on its way. */
  private final class Reading {
    private final Kind kind;
    private final String file;
    private final Supplier<? extends InputStream> bytes;
    private final Sink sink;
    private final @Nullable Statements statements;
    private final Families<Source> sources;
    private final Families<Stock> stocks;
    private int refused;
    private int read;

    Reading(Kind kind, String file, Supplier<? extends InputStream> bytes, Sink sink) {
      this.kind = kind;
      this.file = file;
      this.bytes = bytes;
      this.sink = sink;
      this.statements =
          switch (kind) {
            case TRIAL_MEANS -> new TrialMeans(catalogue);
            case RATINGS -> new Ratings(catalogue);
            case VARIETIES -> new VarietyStatements(catalogue);
            case COMPATIBILITY -> new Verdicts(catalogue);
            default -> null;
          };
      this.sources =
          new Families<>(
              "origin",
              Source::id,
              Source::origin,
              catalogue.sources()::containsKey,
              (line, source) -> {
                read++;
                sink.source(line, source);
              });
      this.stocks =
          new Families<>(
              "clone_of",
              Stock::id,
              Stock::cloneOf,
              id -> catalogue.plants().stock(id).isPresent(),
              (line, stock) -> {
                read++;
                sink.stock(line, stock);
              });
    }

    Tally run() {
      if (statements != null && statements.surveys())
        csv(problem -> {}).forEach(bytes.get(), statements::survey);
      Csv csv = csv(sink::problem);
      csv.forEach(bytes.get(), this::row);
      sources.end(
          this::refuse,
          id -> Names.closest(id, catalogue.sources().keySet().stream().sorted().toList(), 3));
      stocks.end(this::refuse, catalogue.plants()::nearestStocks);
      return new Tally(file, csv.rows(), refused + csv.malformed(), read);
    }

    private Csv csv(Consumer<Problem> problems) {
      if (statements != null)
        return new Csv(file, statements.columns(), statements.optionalColumns(), problems);
      return switch (kind) {
        case SOURCES -> new Csv(file, CatalogueRows.SOURCES, List.of(), problems);
        case STOCKS -> new Csv(file, CatalogueRows.STOCKS, CatalogueRows.SYNONYMS, problems);
        case STOCK_NAMES -> new Csv(file, CatalogueRows.STOCK_NAMES, List.of(), problems);
        case VARIETY_CATALOGUE ->
            new Csv(file, CatalogueRows.VARIETIES, CatalogueRows.SYNONYMS, problems);
        case VARIETY_NAMES -> new Csv(file, CatalogueRows.VARIETY_NAMES, List.of(), problems);
        default -> new Csv(file, Orderings.COLUMNS, List.of(), problems);
      };
    }

    private void row(Row row) {
      try {
        switch (kind) {
          case SOURCES -> sources.add(row.line(), CatalogueRows.source(row));
          case STOCKS -> stocks.add(row.line(), CatalogueRows.stock(row, List.of()));
          case VARIETY_CATALOGUE -> {
            Variety variety = CatalogueRows.variety(row, List.of());
            once(row, "variety\n" + variety.id());
            sink.variety(row.line(), variety);
            read++;
          }
          case STOCK_NAMES -> {
            String stock = row.required("stock");
            if (catalogue.plants().stock(stock).isEmpty())
              throw new Refusal.Unknown("stock", stock, catalogue.plants().nearestStocks(stock));
            once(row, "stock name\n" + stock + '\n' + row.required("name"));
            sink.stockName(row.line(), stock, row.required("name"));
            read++;
          }
          case VARIETY_NAMES -> {
            String variety = row.required("variety");
            if (catalogue.plants().variety(variety).isEmpty()) {
              throw new Refusal.Unknown(
                  "variety", variety, catalogue.plants().nearestVarieties(variety));
            }
            once(row, "variety name\n" + variety + '\n' + row.required("name"));
            sink.varietyName(row.line(), variety, row.required("name"));
            read++;
          }
          case ORDERINGS -> {
            Ordering ordering = Orderings.of(catalogue, row);
            once(row, Orderings.key(ordering));
            sink.ordering(row.line(), ordering);
            read++;
          }
          default -> statement(row);
        }
      } catch (Refusal refusal) {
        refused++;
        sink.problem(
            new Problem(file, row.line(), Columns.of(refusal.field(), row), refusal.getMessage()));
      }
    }

    private void refuse(long line, Refusal refusal) {
      refused++;
      sink.problem(new Problem(file, line, refusal.field(), refusal.getMessage()));
    }

    /**
     * @throws Refusal when it was said before
     */
    private void once(Row row, String said) {
      long earlier = places.get(said);
      if (earlier != Places.NONE) throw new Refusal.Conflict("", repeated(earlier));
      places.put(said, place(row));
    }

    private void statement(Row row) {
      List<TraitRecord> made = new ArrayList<>();
      List<Problem> found = new ArrayList<>();
      try {
        for (RecordCheck.Draft draft : Objects.requireNonNull(statements).drafts(row)) {
          List<Refusal> wrong = check.problems(draft);
          for (Refusal refusal : wrong)
            found.add(
                new Problem(
                    file, row.line(), Columns.of(refusal.field(), row), refusal.getMessage()));
          if (wrong.isEmpty()) made.add(check.make(draft));
        }
      } catch (Refusal refusal) {
        found.add(
            new Problem(file, row.line(), Columns.of(refusal.field(), row), refusal.getMessage()));
      }
      made = made.stream().distinct().toList();
      for (TraitRecord record : made) {
        long earlier = places.get(record.id());
        if (earlier != Places.NONE) found.add(new Problem(file, row.line(), "", repeated(earlier)));
      }
      found.stream().distinct().forEach(sink::problem);
      if (!found.isEmpty()) {
        refused++;
        return;
      }
      for (TraitRecord record : made) places.put(record.id(), place(row));
      read += made.size();
      sink.records(row.line(), made);
    }

    /** File and line in one number. */
    private long place(Row row) {
      return (long) files.size() << 40 | row.line();
    }

    private String repeated(long place) {
      return "says the same as "
          + files.get((int) (place >> 40) - 1)
          + ":"
          + (place & (1L << 40) - 1);
    }
  }
}
