package org.understock.climate;

import de.siegmar.fastcsv.reader.CommentStrategy;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.understock.plant.Crop;

/**
 * Air temperatures that kill 10 and 90 percent of the buds or flowers of a crop in half an hour, by
 * stage. European pear, apple, peach, apricot, European plum, sweet and tart cherry are known;
 * Japanese plum, Asian pear and quince are not, and get no answer.
 *
 * <p>The table names the source of each row. Most go back to one body of work in Washington State,
 * so their agreement proves little, and they name the stages differently; of each crop only the
 * first source in the table is read.
 */
public final class CriticalTemperatures {
  private static final String TABLE = "frost-critical-temperatures.csv";

  /** A line of the table's head that says what stands behind the id of a source. */
  private static final Pattern CITATION =
      Pattern.compile("^# ([a-z0-9-]+): (.+)$", Pattern.MULTILINE);

  private final Map<Crop, List<Stage>> stages;
  private final Map<String, String> citations;

  /**
   * One stage of bud or flower.
   *
   * @param name as the source names it, lower case
   * @param kill10C temperature in °C that kills a tenth
   * @param kill90C temperature in °C that kills nine tenths, or null where the source gives none
   * @param source id of the source
   */
  public record Stage(String name, double kill10C, @Nullable Double kill90C, String source) {
    /**
     * Share of buds killed by half an hour at a temperature, 0 to 1; empty without a second point.
     * A logistic curve through the two published points: sources print no curve, and this one stays
     * between 0 and 1.
     */
    public OptionalDouble shareKilled(double minimumC) {
      if (kill90C == null) return OptionalDouble.empty();
      double middleC = (kill10C + kill90C) / 2;
      // ln 9 is the logit of 0.9, so the curve passes through 0.1 at kill10C and through 0.9 at
      // kill90C.
      double slope = 2 * Math.log(9) / (kill10C - kill90C);
      return OptionalDouble.of(1 / (1 + Math.exp((minimumC - middleC) * slope)));
    }
  }

  private CriticalTemperatures(Map<Crop, List<Stage>> stages, Map<String, String> citations) {
    this.stages = stages;
    this.citations = citations;
  }

  /** The published table that comes with the engine. */
  public static CriticalTemperatures published() {
    try (InputStream in = CriticalTemperatures.class.getResourceAsStream(TABLE)) {
      if (in == null)
        throw new IllegalStateException("resource " + TABLE + " is missing from the jar");
      return read(new String(in.readAllBytes(), StandardCharsets.UTF_8));
    } catch (IOException broken) {
      throw new UncheckedIOException(broken);
    }
  }

  /**
   * Reads a table with the columns crop, stage, kill10_f, kill90_f, kill10_c, kill90_c and
   * source_id; °F go before °C, which are rounded.
   */
  static CriticalTemperatures read(String table) throws IOException {
    Map<Crop, List<Stage>> stages = new EnumMap<>(Crop.class);
    try (CsvReader<NamedCsvRecord> rows =
        CsvReader.builder().commentStrategy(CommentStrategy.SKIP).ofNamedCsvRecord(table)) {
      for (NamedCsvRecord row : rows) {
        String name = row.getField("stage").toLowerCase(Locale.ROOT);
        Double kill10 = celsius(row.getField("kill10_f"), row.getField("kill10_c"));
        if (kill10 == null) continue;
        List<Stage> known =
            stages.computeIfAbsent(crop(row.getField("crop")), c -> new ArrayList<>());
        String source = row.getField("source_id");
        if (known.isEmpty() || known.get(0).source().equals(source)) {
          known.add(
              new Stage(
                  name,
                  kill10,
                  celsius(row.getField("kill90_f"), row.getField("kill90_c")),
                  source));
        }
      }
    }
    stages.replaceAll((crop, list) -> List.copyOf(list));
    Map<String, String> citations = new HashMap<>();
    Matcher head = CITATION.matcher(table);
    while (head.find()) citations.put(head.group(1), head.group(2).strip());
    return new CriticalTemperatures(stages, citations);
  }

  /** Stages of a crop from the earliest to the latest; empty for a crop without figures. */
  public List<Stage> stages(Crop crop) {
    return stages.getOrDefault(crop, List.of());
  }

  /** The stage of a crop by its name, in any case of letters. */
  public Optional<Stage> stage(Crop crop, String name) {
    return stages(crop).stream()
        .filter(s -> s.name().equals(name.toLowerCase(Locale.ROOT)))
        .findFirst();
  }

  /** Author and title of a stage's source. */
  public String citation(Stage stage) {
    return citations.getOrDefault(stage.source(), stage.source());
  }

  /**
   * Share that survives several frosts: survivals multiply. Empty when one of the shares is
   * unknown.
   */
  public static OptionalDouble shareSurviving(List<OptionalDouble> sharesKilled) {
    double surviving = 1;
    for (OptionalDouble killed : sharesKilled) {
      if (killed.isEmpty()) return OptionalDouble.empty();
      surviving *= 1 - killed.getAsDouble();
    }
    return OptionalDouble.of(surviving);
  }

  private static @Nullable Double celsius(String fahrenheit, String celsius) {
    if (!fahrenheit.isEmpty()) return (Double.parseDouble(fahrenheit) - 32) * 5 / 9;
    return celsius.isEmpty() ? null : Double.valueOf(celsius);
  }

  /** The table's word for a crop; its pear is the European one. */
  private static Crop crop(String word) {
    return word.equals("pear") ? Crop.EUROPEAN_PEAR : Crop.of(word.replace(' ', '-'));
  }
}
