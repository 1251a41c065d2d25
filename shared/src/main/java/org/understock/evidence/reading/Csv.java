package org.understock.evidence.reading;

import de.siegmar.fastcsv.reader.CloseableIterator;
import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.io.IOException;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Consumer;
import org.understock.evidence.Problem;

/** Streams the rows of a CSV file (RFC 4180, header in the first line) and reports what is wrong with its form. */
final class Csv {
  private final String file;
  private final Set<String> needed;
  private final Set<String> known;
  private final Consumer<Problem> problems;

  /**
   * @param file name for problems
   * @param needed columns without which the file can't be read
   * @param optional further columns; any other column is refused by name, so that a misspelt one is not silently ignored
   */
  Csv(String file, List<String> needed, List<String> optional, Consumer<Problem> problems) {
    this.file = file;
    this.needed = Set.copyOf(needed);
    Set<String> all = new HashSet<>(needed);
    all.addAll(optional);
    this.known = Set.copyOf(all);
    this.problems = problems;
  }

  /** Hands over each well-formed row in order. Closes the reader. A file that breaks off (an open quote) is a problem, not an exception. */
  void forEach(Reader text, Consumer<Row> rows) {
    try (CsvReader<CsvRecord> csv = CsvReader.builder().detectBomHeader(false).allowMissingFields(true).allowExtraFields(true).ofCsvRecord(text);
        CloseableIterator<CsvRecord> records = csv.iterator()) {
      if (!records.hasNext()) {
        problems.accept(new Problem(file, 1, "", "the file is empty; its first line must name the columns"));
        return;
      }
      List<String> header = header(records.next().getFields());
      if (header.isEmpty()) return;
      while (records.hasNext()) {
        CsvRecord record = records.next();
        if (record.getFieldCount() != header.size()) {
          problems.accept(new Problem(file, record.getStartingLineNumber(), "", "has " + record.getFieldCount() + " fields; the header names "
              + header.size()));
          continue;
        }
        Map<String, String> fields = new LinkedHashMap<>();
        for (int i = 0; i < header.size(); i++) fields.put(header.get(i), record.getField(i));
        rows.accept(new Row(record.getStartingLineNumber(), fields));
      }
    } catch (CsvParseException e) {
      problems.accept(new Problem(file, 1, "", "is not readable as CSV: " + e.getMessage()));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The header's columns, or none when the file can't be read with them. */
  private List<String> header(List<String> fields) {
    List<String> header = new ArrayList<>();
    for (String field : fields) header.add(field.startsWith("\uFEFF") ? field.substring(1) : field);
    List<String> wrong = new ArrayList<>();
    for (String column : needed) if (!header.contains(column)) wrong.add("column " + column + " is missing");
    for (String column : header) if (!known.contains(column)) wrong.add("column '" + column + "' is not known");
    if (new HashSet<>(header).size() != header.size()) wrong.add("a column is named twice");
    wrong.sort(null);
    for (String text : wrong) problems.accept(new Problem(file, 1, "", text));
    return wrong.isEmpty() ? header : List.of();
  }
}
