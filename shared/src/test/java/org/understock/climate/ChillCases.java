package org.understock.climate;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.assertj.core.api.Assertions;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Assumptions;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The reference cases of chill, and real weather to try things on. */
final class ChillCases {
  private ChillCases() {}

  static JsonNode read(String name) {
    try (InputStream in = ChillCases.class.getResourceAsStream(name)) {
      return JsonMapper.shared().readTree(in);
    } catch (IOException broken) {
      throw new UncheckedIOException(broken);
    }
  }

  /** Twelve significant digits are printed; relative 1e-9, or absolute 1e-10 near zero. */
  static Offset<Double> near(double expected) {
    return Assertions.within(Math.max(1e-9 * Math.abs(expected), 1e-10));
  }

  static double[] numbers(JsonNode array) {
    double[] x = new double[array.size()];
    for (int k = 0; k < x.length; k++) x[k] = array.get(k).asDouble();
    return x;
  }

  /**
   * Rows of a measured record that may not be handed on with the project (it comes out of a package
   * under another licence). Where it lies is told by {@code -Dreference.dir=…}; without it, the
   * tests that need it are skipped.
   */
  static List<String[]> handedOnSeparately(String file) {
    String folder = System.getProperty("reference.dir");
    Assumptions.assumeTrue(folder != null, "reference.dir is not set");
    try {
      return Files.readAllLines(Path.of(folder, file)).stream()
          .skip(1)
          .map(line -> line.split(","))
          .toList();
    } catch (IOException broken) {
      throw new UncheckedIOException(broken);
    }
  }

  /** Seattle 2012 to 2015 (seattle-weather.md). */
  static List<DailyExtremes> seattle() {
    try (InputStream in = ChillCases.class.getResourceAsStream("seattle-weather.csv")) {
      List<DailyExtremes> days = new ArrayList<>();
      String[] lines = new String(in.readAllBytes(), StandardCharsets.UTF_8).split("\r?\n");
      for (int k = 1; k < lines.length; k++) {
        String[] cells = lines[k].split(",");
        days.add(
            new DailyExtremes(
                LocalDate.parse(cells[0]), Double.valueOf(cells[3]), Double.valueOf(cells[2])));
      }
      return days;
    } catch (IOException broken) {
      throw new UncheckedIOException(broken);
    }
  }
}
