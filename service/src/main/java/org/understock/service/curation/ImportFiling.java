package org.understock.service.curation;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.Canonical;
import org.understock.evidence.Evidence;
import org.understock.evidence.Ordering;
import org.understock.evidence.Problem;
import org.understock.evidence.Source;
import org.understock.evidence.TraitRecord;
import org.understock.evidence.reading.Sink;
import org.understock.migrations.EvidenceWriter;
import org.understock.plant.Names;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.service.curation.ImportLog.Counts;
import org.understock.service.curation.ImportViews.ImportProblem;
import org.understock.trait.Refusal;

/**
 * Files what is read of an import, some hundred at a time, and counts. Nothing is held longer than
 * until it is filed, but the first problems and the ids of new entries of the catalogue.
 */
final class ImportFiling implements Sink {
  static final int MOST_PROBLEMS = 1000;

  private static final int BATCH = 500;
  private static final int TELL_EVERY_ROWS = 1000;

  private final RecordFile file;
  private final AuditTrail audit;
  private final Evidence catalogue;
  private final Deed deed;
  private final String importId;
  private final boolean allOrNothing;
  private final Consumer<Counts> progress;

  private final Map<String, EvidenceWriter.Filed> records = new LinkedHashMap<>();
  private final List<Source> sources = new ArrayList<>();
  private final List<Stock> stocks = new ArrayList<>();
  private final List<Variety> varieties = new ArrayList<>();
  private final Map<String, String> newSpellings = new LinkedHashMap<>();
  private final Set<String> newEntries = new HashSet<>();
  private final List<ImportProblem> problems = new ArrayList<>();
  private long problemCount;
  private long rows;
  private long refused;
  private long refusedHere;
  private long lastRefusedLine = -1;
  private long proposed;
  private long duplicates;

  /**
   * @param progress told now and then how far it is
   */
  ImportFiling(
      RecordFile file,
      AuditTrail audit,
      Evidence catalogue,
      Deed deed,
      String importId,
      boolean allOrNothing,
      Consumer<Counts> progress) {
    this.file = file;
    this.audit = audit;
    this.catalogue = catalogue;
    this.deed = deed;
    this.importId = importId;
    this.allOrNothing = allOrNothing;
    this.progress = progress;
  }

  Counts counts() {
    return new Counts(rows, proposed, duplicates, refused);
  }

  long problemCount() {
    return problemCount;
  }

  List<ImportProblem> problems() {
    return List.copyOf(problems);
  }

  @Override
  public void records(long line, List<TraitRecord> said) {
    row();
    for (TraitRecord record : said) file(record, null);
  }

  /** A record of one line, and the accepted one that it is to take the place of. */
  void record(TraitRecord record, @Nullable String supersedes) {
    row();
    file(record, supersedes);
  }

  private void file(TraitRecord record, @Nullable String supersedes) {
    if (records.putIfAbsent(Canonical.key(record), new EvidenceWriter.Filed(record, supersedes))
        != null) duplicates++;
    if (records.size() >= BATCH) flush();
  }

  @Override
  public void source(long line, Source source) {
    Source known = catalogue.sources().get(source.id());
    if (entry(
        line,
        "source",
        source.id(),
        Canonical.text(source),
        known == null ? null : Canonical.text(known))) sources.add(source);
  }

  @Override
  public void stock(long line, Stock stock) {
    Stock known = catalogue.plants().stock(stock.id()).orElse(null);
    if (known == null
        && misspelt(
            line,
            "stock",
            stock.id(),
            "",
            Proposals.spellings(stock, catalogue.plants()),
            stock.name(),
            stock.synonyms())) return;
    if (entry(
        line,
        "stock",
        stock.id(),
        Canonical.text(stock),
        known == null ? null : Canonical.text(known))) stocks.add(stock);
  }

  @Override
  public void variety(long line, Variety variety) {
    Variety known = catalogue.plants().variety(variety.id()).orElse(null);
    if (known == null
        && misspelt(
            line,
            "variety",
            variety.id(),
            variety.crop() + " ",
            Proposals.spellings(variety, catalogue.plants()),
            variety.name(),
            variety.synonyms())) return;
    if (entry(
        line,
        "variety",
        variety.id(),
        Canonical.text(variety),
        known == null ? null : Canonical.text(known))) varieties.add(variety);
  }

  /** Whether an entry is to be filed: it is new, and not one of this import's already. */
  private boolean entry(long line, String what, String id, String text, @Nullable String known) {
    if (known != null && !known.equals(text)) {
      fault(
          line,
          "",
          null,
          "the "
              + what
              + " "
              + id
              + " is known already, with other content; entries of the catalogue don't change");
      return false;
    }
    row();
    if (known != null || !newEntries.add(what + " " + id)) {
      duplicates++;
      return false;
    }
    proposed++;
    audit.write(deed, "propose", what + " " + id, null, text);
    if (sources.size() + stocks.size() + varieties.size() >= BATCH) flush();
    return true;
  }

  private boolean misspelt(
      long line,
      String what,
      String id,
      String scope,
      List<Refusal> wrong,
      String name,
      List<String> synonyms) {
    for (Refusal refusal : wrong) fault(line, refusal.field(), null, refusal.getMessage());
    if (!wrong.isEmpty()) return true;
    List<String> all = new ArrayList<>(synonyms);
    all.add(name);
    for (String spelling : all) {
      String other = newSpellings.putIfAbsent(what + " " + scope + Names.key(spelling), id);
      if (other != null && !other.equals(id)) {
        fault(
            line,
            spelling.equals(name) ? "name" : "synonyms",
            null,
            "'" + spelling + "' is a spelling of the " + what + " " + other + " of this file");
        return true;
      }
    }
    return false;
  }

  @Override
  public void ordering(long line, Ordering ordering) {
    throw new IllegalStateException("orderings are not imported");
  }

  @Override
  public void stockName(long line, String stock, String name) {
    throw new IllegalStateException("spellings come with their stock");
  }

  @Override
  public void varietyName(long line, String variety, String name) {
    throw new IllegalStateException("spellings come with their variety");
  }

  @Override
  public void problem(Problem problem) {
    tell(problem.line(), problem.column(), null, problem.text());
  }

  /** Something wrong with a row that the reader has let pass. */
  void fault(long line, String column, @Nullable String pointer, String text) {
    if (line != lastRefusedLine) refusedHere++;
    tell(line, column, pointer, text);
  }

  private void tell(long line, String column, @Nullable String pointer, String text) {
    problemCount++;
    if (problems.size() < MOST_PROBLEMS)
      problems.add(new ImportProblem(line, column.isEmpty() ? null : column, pointer, text));
    if (line == lastRefusedLine) return;
    lastRefusedLine = line;
    refused++;
    row();
  }

  /**
   * Takes the rows as the reader counted them, which knows best what a row is; those that were
   * refused only here come on top.
   */
  void counted(long rowsRead, long rowsRefused) {
    rows = rowsRead;
    refused = rowsRefused + refusedHere;
  }

  private void row() {
    rows++;
    if (rows % TELL_EVERY_ROWS == 0) progress.accept(counts());
  }

  /** Files what is at hand. Once an import is to be refused as a whole nothing more is written. */
  void flush() {
    List<Source> newSources = List.copyOf(sources);
    List<Stock> newStocks = List.copyOf(stocks);
    List<Variety> newVarieties = List.copyOf(varieties);
    Map<String, EvidenceWriter.Filed> fresh = new LinkedHashMap<>(records);
    sources.clear();
    stocks.clear();
    varieties.clear();
    records.clear();
    if (allOrNothing && problemCount > 0) return;
    if (!(newSources.isEmpty() && newStocks.isEmpty() && newVarieties.isEmpty())) {
      file.propose(newSources, newStocks, newVarieties, deed.actor(), importId);
    }
    if (fresh.isEmpty()) return;
    int before = fresh.size();
    file.everFiled(fresh.keySet()).forEach(fresh::remove);
    List<String> filed =
        fresh.isEmpty()
            ? List.of()
            : file.propose(List.copyOf(fresh.values()), catalogue, deed.actor(), importId);
    audit.writeAll(deed, "propose", filed, null, "import " + importId);
    proposed += filed.size();
    duplicates += before - filed.size();
  }
}
