package org.understock.bench;

import java.util.List;
import java.util.Map;
import org.understock.advice.Candidates;
import org.understock.advice.Question;
import org.understock.advice.Units;
import org.understock.evidence.Advisable;
import org.understock.evidence.CompiledTraitBook;
import org.understock.migrations.StarterEvidence;
import org.understock.plant.Crop;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.site.Goal;
import org.understock.site.Site;
import org.understock.site.Soil;

/** Questions about apples over the starter evidence. */
public final class Apples {
  public static final CompiledTraitBook BOOK =
      CompiledTraitBook.compile(1, StarterEvidence.read().evidence());

  /**
   * A cold, wet, windy, replanted garden with blight and aphids: every kind of criterion takes
   * part.
   */
  private static final Site HARD_SITE =
      new Site(
          44.1,
          -26.0,
          1100.0,
          null,
          150.0,
          new Soil(
              Soil.Texture.CLAY_LOAM,
              Soil.Drainage.POORLY_DRAINED,
              70.0,
              6.4,
              0.8,
              Soil.Fertility.MODERATE,
              true),
          Site.Irrigation.NONE,
          Site.Wind.EXPOSED,
          List.of("fire-blight", "woolly-apple-aphid"));

  private static final Goal SMALL_GARDEN =
      new Goal(
          Goal.Purpose.HOME_GARDEN,
          3.0,
          6.0,
          10.0,
          4.0,
          30.0,
          Goal.Care.ORGANIC,
          Goal.Support.STAKE,
          Map.of("early-cropping", 4.0, "long-life", 2.0));

  private Apples() {}

  public static Question question(String pairings, boolean much) {
    return new Question(
        Crop.APPLE,
        much ? HARD_SITE : Site.UNKNOWN,
        much ? SMALL_GARDEN : Goal.UNKNOWN,
        candidates(pairings),
        10,
        Question.BestPer.PAIRING,
        Units.METRIC);
  }

  private static Candidates candidates(String pairings) {
    return switch (pairings) {
      case "20" -> some(4, 5);
      case "300" -> some(20, 15);
      case "2500" -> some(25, 100);
      case "all" -> Candidates.ALL;
      case "every" -> some(Integer.MAX_VALUE, Integer.MAX_VALUE);
      default -> throw new IllegalArgumentException("no such number of pairings: " + pairings);
    };
  }

  /** Those that are advised unasked first. */
  private static Candidates some(int stocks, int varieties) {
    Advisable advisable = Advisable.of(BOOK, Crop.APPLE);
    List<String> stockIds =
        BOOK.plants().stocks().stream()
            .filter(s -> s.kind() != Stock.Kind.CLASS && s.crops().contains(Crop.APPLE))
            .map(Stock::id)
            .sorted((a, b) -> Boolean.compare(advisable.stock(b), advisable.stock(a)))
            .limit(stocks)
            .toList();
    List<String> varietyIds =
        BOOK.plants().varieties().stream()
            .filter(v -> v.crop() == Crop.APPLE)
            .map(Variety::id)
            .sorted((a, b) -> Boolean.compare(advisable.variety(b), advisable.variety(a)))
            .limit(varieties)
            .toList();
    return new Candidates(stockIds, varietyIds, List.of());
  }
}
