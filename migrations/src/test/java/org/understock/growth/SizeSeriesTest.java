package org.understock.growth;

import static org.assertj.core.api.Assertions.assertThat;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.understock.plant.Crop;

/**
 * Sizes of stocks against published orders from small to large (size-series.csv, the publication
 * beside each row). Publications marked independent are none of those that the starter evidence is
 * drawn from. Only stocks whose size rests on records are compared: the rest carry what is usual in
 * the crop, and say so.
 */
class SizeSeriesTest {
  private static final Map<String, List<Row>> SERIES = read();

  /**
   * @param group 1 for the smallest; stocks of one group are not ordered among themselves
   */
  private record Row(Crop crop, int group, String stock, boolean independent) {
    Part size() {
      return StarterGrowth.of(crop).stock(stock).size();
    }
  }

  private record Pair(Row smaller, Row larger) {
    boolean onRecords() {
      return smaller.size().basis() != Part.Basis.CROP && larger.size().basis() != Part.Basis.CROP;
    }

    /**
     * How far the sizes contradict the order, in standard deviations of their difference; below 0
     * when they agree.
     */
    double contradiction() {
      LogNormal a = smaller.size().value();
      LogNormal b = larger.size().value();
      return (a.mu() - b.mu()) / Math.hypot(a.sigma(), b.sigma());
    }

    @Override
    public String toString() {
      return String.format(
          Locale.ROOT,
          "%s %.2f should be below %s %.2f (%.1f sd)",
          smaller.stock,
          smaller.size().value().median(),
          larger.stock,
          larger.size().value().median(),
          contradiction());
    }
  }

  static Stream<Arguments> series() {
    return SERIES.entrySet().stream().map(e -> Arguments.of(e.getKey(), e.getValue()));
  }

  /**
   * Sizes on records may stand in the other order only where they hardly differ; sizes of unknown
   * stocks must be wide enough to allow the order.
   */
  @ParameterizedTest(name = "{0}")
  @MethodSource("series")
  void no_series_is_contradicted_beyond_the_uncertainty(String name, List<Row> rows) {
    assertThat(pairs(rows))
        .isNotEmpty()
        .allSatisfy(
            pair ->
                assertThat(pair.contradiction())
                    .as("%s: %s", name, pair)
                    .isLessThan(pair.onRecords() ? 0.5 : 2));
  }

  @Test
  void nearly_all_pairs_of_independent_series_come_out_in_order() {
    List<Pair> pairs =
        SERIES.values().stream()
            .flatMap(rows -> pairs(rows).stream())
            .filter(p -> p.smaller.independent && p.onRecords())
            .toList();
    List<Pair> wrong = pairs.stream().filter(p -> p.contradiction() >= 0).toList();
    System.out.printf(
        Locale.ROOT,
        "independent size series: %d of %d pairs in order; not: %s%n",
        pairs.size() - wrong.size(),
        pairs.size(),
        wrong);
    assertThat(pairs).hasSizeGreaterThanOrEqualTo(25);
    assertThat(wrong)
        .as("not in order, of %d", pairs.size())
        .hasSizeLessThanOrEqualTo(pairs.size() / 20);
  }

  private static List<Pair> pairs(List<Row> rows) {
    List<Pair> pairs = new ArrayList<>();
    for (Row a : rows) {
      for (Row b : rows) {
        if (a.group < b.group) pairs.add(new Pair(a, b));
      }
    }
    return pairs;
  }

  private static Map<String, List<Row>> read() {
    Map<String, List<Row>> series = new LinkedHashMap<>();
    try (InputStreamReader text =
            new InputStreamReader(
                Objects.requireNonNull(
                    SizeSeriesTest.class.getResourceAsStream("/evidence/size-series.csv")),
                StandardCharsets.UTF_8);
        CsvReader<NamedCsvRecord> csv = CsvReader.builder().ofNamedCsvRecord(text)) {
      for (NamedCsvRecord r : csv) {
        series
            .computeIfAbsent(r.getField("series"), s -> new ArrayList<>())
            .add(
                new Row(
                    Crop.of(r.getField("crop")),
                    Integer.parseInt(r.getField("group")),
                    r.getField("stock"),
                    r.getField("independent").equals("yes")));
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return series;
  }
}
