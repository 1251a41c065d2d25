package org.understock.evidence.reading;

import java.io.Reader;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.understock.evidence.Ordering;
import org.understock.evidence.Problem;
import org.understock.evidence.RecordCheck;
import org.understock.evidence.TraitRecord;
import org.understock.trait.Refusal;

/**
 * Reads statement files into records. Every row is either read whole or refused with its file, line, column and reason; what two rows say twice
 * over is refused the second time.
 *
 * <p>Not thread-safe: one reader gathers the files of one reading.
 */
public final class EvidenceReader {

  /** The kinds of statement files, by the name of the file without its ending. */
  public enum Kind {
    TRIAL_MEANS,
    RATINGS,
    VARIETIES,
    COMPATIBILITY,
    ORDERINGS;

    /** Slug: {@code trial-means}. */
    public String id() {
      return name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
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
   * @param records records made; a row may make several
   */
  public record Tally(String file, int rows, int refused, int records) {}

  private final Catalogue catalogue;
  private final RecordCheck check;
  private final List<TraitRecord> records = new ArrayList<>();
  private final List<Ordering> orderings = new ArrayList<>();
  private final List<Problem> problems = new ArrayList<>();
  private final List<Tally> tallies = new ArrayList<>();
  private final Map<String, String> placeById = new HashMap<>();

  public EvidenceReader(Catalogue catalogue) {
    this.catalogue = catalogue;
    this.check = new RecordCheck(catalogue.traits(), catalogue.plants(), catalogue.sources());
  }

  /** Reads one file and closes it. @param file name for problems */
  public void read(Kind kind, String file, Reader text) {
    int before = records.size() + orderings.size();
    Statements statements = switch (kind) {
      case TRIAL_MEANS -> new TrialMeans(catalogue);
      case RATINGS -> new Ratings(catalogue);
      case VARIETIES -> new VarietyStatements(catalogue);
      case COMPATIBILITY -> new Verdicts(catalogue);
      case ORDERINGS -> null;
    };
    List<Row> rows = new ArrayList<>();
    int problemsBefore = problems.size();
    Csv csv = statements == null ? new Csv(file, Orderings.COLUMNS, List.of(), problems::add)
        : new Csv(file, statements.columns(), statements.optionalColumns(), problems::add);
    csv.forEach(text, rows::add);
    int malformed = problems.size() - problemsBefore;
    int refused = 0;
    if (statements != null) statements.survey(rows);
    for (Row row : rows) {
      boolean kept = statements == null ? ordering(file, row) : statement(file, row, statements);
      if (!kept) refused++;
    }
    tallies.add(new Tally(file, rows.size() + malformed, refused + malformed, records.size() + orderings.size() - before));
  }

  /** Records read so far, in the order of files and rows. */
  public List<TraitRecord> records() {
    return List.copyOf(records);
  }

  public List<Ordering> orderings() {
    return List.copyOf(orderings);
  }

  public List<Problem> problems() {
    return List.copyOf(problems);
  }

  public List<Tally> tallies() {
    return List.copyOf(tallies);
  }

  private boolean ordering(String file, Row row) {
    try {
      Ordering ordering = Orderings.of(catalogue, row);
      String earlier = placeById.putIfAbsent(Orderings.key(ordering), file + ":" + row.line());
      if (earlier == null) {
        orderings.add(ordering);
        return true;
      }
      problems.add(new Problem(file, row.line(), "", "says the same as " + earlier));
      return false;
    } catch (Refusal refusal) {
      problems.add(new Problem(file, row.line(), refusal.field(), refusal.getMessage()));
      return false;
    }
  }

  private boolean statement(String file, Row row, Statements statements) {
    List<TraitRecord> made = new ArrayList<>();
    List<Problem> found = new ArrayList<>();
    try {
      for (RecordCheck.Draft draft : statements.drafts(row)) {
        List<Refusal> wrong = check.problems(draft);
        for (Refusal refusal : wrong) found.add(new Problem(file, row.line(), Columns.of(refusal.field(), row), refusal.getMessage()));
        if (wrong.isEmpty()) made.add(check.make(draft));
      }
    } catch (Refusal refusal) {
      found.add(new Problem(file, row.line(), refusal.field(), refusal.getMessage()));
    }
    for (TraitRecord record : made) {
      String earlier = placeById.get(record.id());
      if (earlier != null) found.add(new Problem(file, row.line(), "", "says the same as " + earlier));
    }
    problems.addAll(found.stream().distinct().toList());
    if (!found.isEmpty()) return false;
    for (TraitRecord record : made) placeById.put(record.id(), file + ":" + row.line());
    records.addAll(made);
    return true;
  }
}
