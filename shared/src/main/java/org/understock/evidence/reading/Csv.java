package org.understock.evidence.reading;

import de.siegmar.fastcsv.reader.AbstractBaseCsvCallbackHandler;
import de.siegmar.fastcsv.reader.CloseableIterator;
import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.FieldMismatchStrategy;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.Problem;
import org.understock.plant.Names;
import org.understock.trait.PlainText;

/**
 * Streams the rows of a CSV file (RFC 4180, UTF-8, header in the first line) and reports what is
 * wrong with its form. No row is kept, and none is taken into memory beyond {@link #MOST_FIELDS}
 * fields of {@link #LONGEST_FIELD} characters.
 */
final class Csv {
  private static final int MOST_FIELDS = 200;
  private static final int LONGEST_FIELD = 65_536;

  private final String file;
  private final List<String> needed;
  private final List<String> known;
  private final Consumer<Problem> problems;
  private int rows;
  private int malformed;

  /**
   * @param file name for problems
   * @param needed columns without which the file can't be read
   * @param optional further columns; any other column is refused by name, so that a misspelt one is
   *     not silently ignored
   */
  Csv(String file, List<String> needed, List<String> optional, Consumer<Problem> problems) {
    this.file = file;
    this.needed = needed;
    List<String> all = new ArrayList<>(needed);
    all.addAll(optional);
    this.known = List.copyOf(all);
    this.problems = problems;
  }

  /** Rows below the header that said anything, well-formed or not. */
  int rows() {
    return rows;
  }

  /** Rows that were refused for their form. */
  int malformed() {
    return malformed;
  }

  /**
   * Hands over each well-formed row in order. Closes the stream. A file that breaks off (an open
   * quote) is a problem, not an exception: the rows before it have been handed over.
   */
  void forEach(InputStream bytes, Consumer<Row> to) {
    Fields handler = new Fields();
    try (Utf8Reader text = new Utf8Reader(bytes);
        CsvReader<Raw> csv =
            CsvReader.builder()
                .allowUnclosedQuote(false)
                .maxBufferSize(LONGEST_FIELD)
                .missingFieldStrategy(FieldMismatchStrategy.IGNORE)
                .extraFieldStrategy(FieldMismatchStrategy.IGNORE)
                .build(handler, text);
        CloseableIterator<Raw> records = csv.iterator()) {
      if (text.utf16()) {
        problem(
            1,
            "",
            "the file is UTF-16; save it as UTF-8 (in a spreadsheet: CSV UTF-8) and send it again");
        return;
      }
      if (!records.hasNext()) {
        problem(1, "", "the file is empty; its first line must name the columns");
        return;
      }
      List<String> header = header(records.next(), text);
      if (header.isEmpty()) return;
      while (records.hasNext()) {
        Raw raw = records.next();
        if (raw.blank()) continue;
        rows++;
        Row row = row(header, raw, text);
        if (row != null) to.accept(row);
      }
    } catch (CsvParseException e) {
      rows++;
      malformed++;
      problem(
          handler.line,
          "",
          "is not readable as CSV: " + reason(e) + "; nothing was read from here on");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private @Nullable Row row(List<String> header, Raw raw, Utf8Reader text) {
    if (raw.count != header.size()) {
      malformed++;
      problem(raw.line, "", "has " + raw.count + " fields; the header names " + header.size());
      return null;
    }
    Map<String, String> fields = new LinkedHashMap<>();
    boolean clean = true;
    for (int i = 0; i < header.size(); i++) {
      String field = raw.fields.get(i);
      if (PlainText.misfit(field) >= 0) {
        problem(raw.line, header.get(i), misfit(field, raw, text));
        clean = false;
      }
      fields.put(header.get(i), field);
    }
    if (!clean) malformed++;
    return clean ? new Row(raw.line, fields) : null;
  }

  private static String misfit(String field, Raw raw, Utf8Reader text) {
    int at = PlainText.misfit(field);
    String fault = field.charAt(at) == '\uFFFD' ? text.fault(raw.line, raw.lastLine()) : null;
    if (fault != null)
      return "is not UTF-8: "
          + fault
          + ", after '"
          + field.substring(Math.max(0, at - 20), at)
          + "'; save the file as UTF-8 (in a spreadsheet: CSV UTF-8)";
    return "holds the "
        + PlainText.word(field.charAt(at))
        + " at character "
        + (at + 1)
        + "; take it out";
  }

  /** What the CSV library says, in words that tell what to do. */
  private static String reason(CsvParseException e) {
    String message = String.valueOf(e.getMessage());
    if (message.contains("buffer"))
      return "a field of the row that begins here is longer than "
          + LONGEST_FIELD
          + " characters; most often a quote is opened and not closed";
    return message.replaceAll(" \\(record starting at line \\d+\\)", "").replaceAll("\\.$", "");
  }

  /** The header's columns, or none when the file can't be read with them. */
  private List<String> header(Raw raw, Utf8Reader text) {
    List<String> header = raw.fields.stream().map(String::strip).toList();
    String only = header.get(0);
    for (String separator : new String[] {";", "\t", "|"}) {
      if (raw.count == 1 && only.contains(separator)) {
        problem(
            1,
            "",
            "the columns are separated by "
                + switch (separator) {
                  case ";" -> "semicolons";
                  case "\t" -> "tabs";
                  default -> "vertical bars";
                }
                + "; separate them by commas, and write decimals with a point");
        return List.of();
      }
    }
    List<String> wrong = new ArrayList<>();
    for (int i = 0; i < header.size(); i++) {
      String column = header.get(i);
      if (PlainText.misfit(column) >= 0) {
        wrong.add("the name of column " + (i + 1) + " " + misfit(column, raw, text));
      } else if (!known.contains(column)) {
        List<String> nearest = Names.closest(column, known, 1);
        wrong.add(
            "column '"
                + (column.length() > 60 ? column.substring(0, 60) + "…" : column)
                + "' is not known"
                + (nearest.isEmpty() ? "" : "; nearest known: " + nearest.get(0)));
      } else if (header.indexOf(column) < i) {
        wrong.add(
            "column '"
                + column
                + "' is named twice, as column "
                + (header.indexOf(column) + 1)
                + " and "
                + (i + 1));
      }
    }
    for (String column : needed)
      if (!header.contains(column)) wrong.add("column " + column + " is missing");
    if (raw.count > header.size())
      wrong.add("has " + raw.count + " columns; at most " + known.size() + " are known");
    wrong.sort(null);
    for (String w : wrong) problem(1, "", w);
    return wrong.isEmpty() ? header : List.of();
  }

  private void problem(long line, String column, String text) {
    problems.accept(new Problem(file, line, column, text));
  }

  /** A row as it stands: its first fields, and how many there were. */
  private record Raw(long line, List<String> fields, int count) {
    boolean blank() {
      return fields.stream().allMatch(String::isBlank) && count == fields.size();
    }

    long lastLine() {
      return line
          + fields.stream()
              .mapToLong(f -> f.chars().filter(c -> c == '\n' || c == '\r').count())
              .sum();
    }
  }

  /**
   * Keeps the first fields of a row and counts the rest, so that a row of a million columns costs
   * nothing.
   */
  private static final class Fields extends AbstractBaseCsvCallbackHandler<Raw> {
    private List<String> fields = new ArrayList<>();
    private long line = 1;

    @Override
    protected void handleBegin(long startingLine) {
      line = startingLine;
      fields = new ArrayList<>();
    }

    @Override
    protected void handleField(int index, char[] buffer, int offset, int length, boolean quoted) {
      if (index < MOST_FIELDS) fields.add(new String(buffer, offset, length));
    }

    @Override
    protected Raw buildRecord() {
      return new Raw(line, fields, getFieldCount());
    }
  }
}
