package org.understock.service.climate;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.PushbackReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.stream.IntStream;
import org.understock.climate.DailyColumns;
import org.understock.climate.DailyExtremes;
import org.understock.climate.NightRule;
import org.understock.climate.TemperatureSeries;
import org.understock.service.problem.ProblemError;
import org.understock.service.problem.ProblemException;
import org.understock.service.problem.ProblemType;
import org.understock.service.series.SeriesOf;
import org.understock.service.series.TemperatureUnit;
import org.understock.trait.Refusal;

/**
 * Reads a station's or logger's export: a header with {@code date,min,max}, or with {@code
 * date-time,temperature}, in any order and among other columns, which are not read. Cells are
 * parted by commas, semicolons or tabs; where it is not the comma, decimals may have one. An empty
 * cell is a missing value.
 */
final class SeriesCsv {
  private static final int MOST_TOLD = 50;
  private static final List<String> DATE = List.of("date", "day");
  private static final List<String> MIN = List.of("min", "minc", "tmin", "temp_min", "minimum");
  private static final List<String> MAX = List.of("max", "maxc", "tmax", "temp_max", "maximum");
  private static final List<String> TIME =
      List.of("date-time", "datetime", "date_time", "timestamp", "time");
  private static final List<String> TEMPERATURE =
      List.of("temperature", "temperaturec", "temp", "t");

  private final double latitude;
  private final NightRule rule;
  private final TemperatureUnit unit;
  private final List<ProblemError> errors = new ArrayList<>();
  private final List<ProblemError> offTheScale = new ArrayList<>();
  private final List<String> notRead = new ArrayList<>();
  private char separator = ',';
  private boolean daily;

  SeriesCsv(double latitude, NightRule rule, TemperatureUnit unit) {
    this.latitude = latitude;
    this.rule = rule;
    this.unit = unit;
  }

  /** Columns of the file that were not read. */
  List<String> notRead() {
    return notRead;
  }

  /** Whether the file held daily extremes. */
  boolean daily() {
    return daily;
  }

  /**
   * @throws ProblemException naming lines and columns, up to fifty
   */
  TemperatureSeries read(InputStream body) throws IOException {
    PushbackReader text =
        new PushbackReader(new InputStreamReader(body, StandardCharsets.UTF_8), 4096);
    separator = separator(text);
    try (CsvReader<CsvRecord> rows =
        CsvReader.builder().fieldSeparator(separator).skipEmptyLines(true).ofCsvRecord(text)) {
      Iterator<CsvRecord> walk = rows.iterator();
      if (!walk.hasNext())
        throw refused(
            "The file is empty.",
            List.of(
                error(1, "header", "is missing; it needs date,min,max or date-time,temperature")));
      List<String> header =
          walk.next().getFields().stream()
              .map(f -> f.strip().replace("\uFEFF", "").toLowerCase(Locale.ROOT))
              .toList();
      int[] days = {column(header, DATE), column(header, MIN), column(header, MAX)};
      int[] readings = {column(header, TIME), column(header, TEMPERATURE)};
      daily = Arrays.stream(days).allMatch(c -> c >= 0);
      if (!daily && Arrays.stream(readings).anyMatch(c -> c < 0)) {
        throw refused(
            "The header lacks columns.",
            List.of(
                error(
                    1,
                    "header",
                    "must have date,min,max or date-time,temperature; it has "
                        + String.join(", ", header))));
      }
      int[] used = daily ? days : readings;
      for (int c = 0; c < header.size(); c++) {
        int column = c;
        if (IntStream.of(used).noneMatch(u -> u == column)) notRead.add(header.get(c));
      }
      return daily ? daily(walk, days) : readings(walk, readings);
    } catch (CsvParseException | UncheckedIOException broken) {
      if (broken.getCause() instanceof ProblemException known) throw known;
      throw refused(
          "The body can't be read as CSV.",
          List.of(
              new ProblemError(null, null, String.valueOf(broken.getMessage()), null, null, null)));
    }
  }

  /** The first of tab, semicolon and comma that the first line has. */
  private static char separator(PushbackReader text) throws IOException {
    char[] start = new char[4096];
    int n = 0;
    for (int c = text.read(); c >= 0; c = text.read()) {
      start[n++] = (char) c;
      if (c == '\n' || n == start.length) break;
    }
    text.unread(start, 0, n);
    String line = new String(start, 0, n);
    return line.indexOf('\t') >= 0 ? '\t' : line.indexOf(';') >= 0 ? ';' : ',';
  }

  private static int column(List<String> header, List<String> names) {
    for (String name : names) if (header.contains(name)) return header.indexOf(name);
    return -1;
  }

  private TemperatureSeries daily(Iterator<CsvRecord> rows, int[] columns) {
    DailyColumns days = new DailyColumns();
    while (rows.hasNext() && errors.size() < MOST_TOLD) {
      CsvRecord row = rows.next();
      String text = cell(row, columns[0]);
      LocalDate date = SeriesOf.date(text);
      if (date == null) tell(row, "date", "must be a date such as 2024-10-01, not '" + text + "'");
      double min = number(row, columns[1], "min");
      double max = number(row, columns[2], "max");
      if (date == null) continue;
      for (Refusal refusal : days.add(date, min, max, "day")) {
        if (!(refusal instanceof Refusal.OutOfRange)) errors.add(told(refusal, row));
        else if (offTheScale.size() < MOST_TOLD) offTheScale.add(told(refusal, row));
      }
    }
    if (errors.isEmpty() && offTheScale.isEmpty())
      days.nothingWhole("daily").ifPresent(refusal -> errors.add(told(refusal)));
    if (!errors.isEmpty()) throw refused();
    return checked(days.series(latitude, rule), "daily");
  }

  /** A series whose values can be meant, in the unit that was said. */
  private TemperatureSeries checked(TemperatureSeries series, String name) {
    SeriesOf.wrongUnit(series, latitude, unit, name)
        .ifPresent(
            refusal -> {
              offTheScale.clear(); // the unit is why they are off it
              errors.add(told(refusal));
            });
    if (!errors.isEmpty() || !offTheScale.isEmpty()) throw refused();
    return series;
  }

  private static ProblemError told(Refusal refusal) {
    return new ProblemError(
        null, null, Objects.requireNonNull(refusal.getMessage()), null, null, null);
  }

  /** A refusal of the engine about {@code day.minC}, by the line and column of the file. */
  private static ProblemError told(Refusal refusal, CsvRecord row) {
    String message = Objects.requireNonNull(refusal.getMessage()).replace(refusal.field(), "it");
    String column = refusal.field().replaceFirst("^day\\.", "").replaceFirst("C$", "");
    return error(row.getStartingLineNumber(), column, message);
  }

  private TemperatureSeries readings(Iterator<CsvRecord> rows, int[] columns) {
    LocalDate first = null;
    int[] minutes = new int[1024];
    double[] values = new double[1024];
    int n = 0;
    while (rows.hasNext() && errors.size() < MOST_TOLD) {
      CsvRecord row = rows.next();
      String text = cell(row, columns[0]);
      LocalDateTime time = SeriesOf.time(text);
      double value = number(row, columns[1], "temperature");
      if (time == null)
        tell(row, "date-time", "must be a local time such as 2024-10-01T00:00, not '" + text + "'");
      if (time == null || Double.isNaN(value)) continue;
      if (!DailyExtremes.inRange(value) && offTheScale.size() < MOST_TOLD) {
        offTheScale.add(
            error(
                row.getStartingLineNumber(),
                "temperature",
                "is " + cell(row, columns[1]) + "; must be " + DailyExtremes.RANGE));
      }
      if (first == null) first = time.toLocalDate();
      long minute = ChronoUnit.MINUTES.between(first.atStartOfDay(), time);
      if (minute < 0 || n > 0 && minute <= minutes[n - 1]) {
        tell(
            row,
            "date-time",
            minute >= 0 && minute == minutes[n - 1]
                ? text + " comes twice"
                : text + " comes after a later one; give readings in order");
        continue;
      }
      if (time.toLocalDate().isAfter(first.plusYears(TemperatureSeries.MOST_YEARS))) {
        tell(
            row,
            "date-time",
            text
                + " is too far from the first reading; a series spans "
                + TemperatureSeries.MOST_YEARS
                + " years at most");
        continue;
      }
      if (n == minutes.length) {
        minutes = Arrays.copyOf(minutes, 2 * n);
        values = Arrays.copyOf(values, 2 * n);
      }
      minutes[n] = (int) minute;
      values[n++] = value;
    }
    if (errors.isEmpty() && n == 0)
      errors.add(
          new ProblemError(null, null, "there is no reading with a temperature", null, null, null));
    if (!errors.isEmpty()) throw refused();
    return checked(
        TemperatureSeries.ofReadings(
            Objects.requireNonNull(first), Arrays.copyOf(minutes, n), Arrays.copyOf(values, n)),
        "temperature");
  }

  /** All that is wrong, the first fifty things. */
  private ProblemException refused() {
    errors.addAll(offTheScale);
    List<ProblemError> all = errors.subList(0, Math.min(errors.size(), MOST_TOLD));
    return refused(
        all.size() == 1 ? "A value can't be used." : all.size() + " values can't be used.", all);
  }

  /** A temperature in °C; NaN for an empty cell, and for what is told to be no number. */
  private double number(CsvRecord row, int column, String name) {
    String text = cell(row, column);
    if (text.isEmpty()) return Double.NaN;
    try {
      double value = Double.parseDouble(separator == ',' ? text : text.replace(',', '.'));
      if (!Double.isNaN(value)) return unit.toCelsius(value);
    } catch (NumberFormatException none) {
      // told below
    }
    tell(row, name, "must be a number, not '" + text + "'");
    return Double.NaN;
  }

  private static String cell(CsvRecord row, int column) {
    return column < row.getFieldCount() ? row.getField(column).strip() : "";
  }

  private void tell(CsvRecord row, String column, String detail) {
    errors.add(error(row.getStartingLineNumber(), column, detail));
  }

  private static ProblemError error(long line, String column, String detail) {
    return new ProblemError(
        null, null, "line " + line + ", " + column + ": " + detail, null, null, null);
  }

  private static ProblemException refused(String detail, List<ProblemError> errors) {
    return ProblemException.of(ProblemType.INVALID_REQUEST, detail, errors);
  }
}
