package org.understock.impact;

import de.siegmar.fastcsv.reader.CommentStrategy;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.understock.advice.Candidates;
import org.understock.advice.Question;
import org.understock.advice.Units;
import org.understock.plant.Crop;
import org.understock.site.Goal;
import org.understock.site.Site;
import org.understock.site.Soil;
import org.understock.site.Word;

/**
 * The kept examples: two dozen requests of an invented scenario over all crops, several purposes
 * and sites, in the table {@code kept-examples.csv}. They are what impact and gaps are measured on.
 */
public final class KeptExamples {
  /** How many places of each example are compared. */
  public static final int PLACES = 5;

  private static final String TABLE = "kept-examples.csv";

  private KeptExamples() {}

  /** The examples that come with the engine, in the order of the table. */
  public static List<ExampleQuestion> all() {
    try (InputStream in = KeptExamples.class.getResourceAsStream(TABLE)) {
      if (in == null)
        throw new IllegalStateException("resource " + TABLE + " is missing from the jar");
      return read(new InputStreamReader(in, StandardCharsets.UTF_8));
    } catch (IOException broken) {
      throw new UncheckedIOException(broken);
    }
  }

  static List<ExampleQuestion> read(Reader table) throws IOException {
    List<ExampleQuestion> examples = new ArrayList<>();
    try (CsvReader<NamedCsvRecord> rows =
        CsvReader.builder().commentStrategy(CommentStrategy.SKIP).ofNamedCsvRecord(table)) {
      for (NamedCsvRecord row : rows) examples.add(example(row));
    }
    return List.copyOf(examples);
  }

  private static ExampleQuestion example(NamedCsvRecord row) {
    Candidates candidates = new Candidates(list(row, "stocks"), list(row, "varieties"), List.of());
    Question question =
        new Question(
            Crop.of(row.getField("crop")),
            site(row),
            goal(row),
            candidates,
            PLACES,
            Question.BestPer.PAIRING,
            Units.METRIC);
    return new ExampleQuestion(row.getField("id"), row.getField("title"), question);
  }

  private static Site site(NamedCsvRecord row) {
    String replant = row.getField("replant");
    Soil soil =
        new Soil(
            word(Soil.Texture.class, row, "texture"),
            word(Soil.Drainage.class, row, "drainage"),
            number(row, "depth_cm"),
            number(row, "ph"),
            number(row, "salinity_ds_per_m"),
            word(Soil.Fertility.class, row, "fertility"),
            replant.isEmpty() ? null : Boolean.valueOf(replant));
    return new Site(
        number(row, "latitude"),
        number(row, "coldest_night_c"),
        number(row, "chill_hours"),
        null,
        number(row, "frost_free_days"),
        soil,
        word(Site.Irrigation.class, row, "irrigation"),
        word(Site.Wind.class, row, "wind"),
        list(row, "pressures"));
  }

  private static Goal goal(NamedCsvRecord row) {
    return new Goal(
        word(Goal.Purpose.class, row, "purpose"),
        number(row, "max_height_m"),
        number(row, "width_m"),
        number(row, "length_m"),
        number(row, "first_crop_within_years"),
        number(row, "keep_for_years"),
        word(Goal.Care.class, row, "care"),
        word(Goal.Support.class, row, "support"),
        Map.of());
  }

  private static List<String> list(NamedCsvRecord row, String column) {
    return Arrays.stream(row.getField(column).split(" ")).filter(word -> !word.isEmpty()).toList();
  }

  private static @Nullable Double number(NamedCsvRecord row, String column) {
    String text = row.getField(column);
    return text.isEmpty() ? null : Double.valueOf(text);
  }

  private static <W extends Enum<W> & Word> @Nullable W word(
      Class<W> vocabulary, NamedCsvRecord row, String column) {
    String text = row.getField(column);
    return text.isEmpty() ? null : Word.of(vocabulary, column, text);
  }
}
