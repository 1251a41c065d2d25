package org.understock.advice;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.understock.climate.SeasonLength;
import org.understock.evidence.Advisable;
import org.understock.evidence.Estimate;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.growth.Expectations;
import org.understock.growth.Growth;
import org.understock.plant.Crop;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.pollination.Pollination;
import org.understock.site.Goal;
import org.understock.site.Site;
import org.understock.trait.Trait;

/**
 * One crop of a trait book, made ready for scoring: draws of every level, growth, compatibility.
 * Compiled once for each book and crop.
 */
final class CropTables {
  /**
   * How the uncertainty of a tree's size, times and yield is split between stock and variety: this
   * share of the standard score is the stock's and the same under every variety, the rest the
   * variety's and the same on every stock. Squares sum to 1.
   */
  static final double STOCK_SHARE = 0.9;

  static final double VARIETY_SHARE = Math.sqrt(1 - STOCK_SHARE * STOCK_SHARE);

  /** Diseases judged on the variety itself. */
  static final List<String> VARIETY_DISEASES =
      List.of(
          "fire-blight",
          "scab",
          "powdery-mildew",
          "cedar-apple-rust",
          "quince-rust",
          "bacterial-spot",
          "bacterial-canker",
          "leaf-curl");

  final TraitBook book;
  final Crop crop;
  final Growth growth;
  final Pollination pollination;
  final List<StockRow> stocks = new ArrayList<>();
  final List<VarietyRow> varieties = new ArrayList<>();

  /**
   * Traits for which at least one stock (or variety) of the crop has an estimate: without one a
   * criterion tells nothing apart.
   */
  final Map<String, Boolean> stockTraits = new TreeMap<>();

  final Map<String, Boolean> varietyTraits = new TreeMap<>();
  final SeasonLength season;
  final double usualYieldKgPerM2;

  private final Map<String, Integer> stockIndex = new HashMap<>();
  private final Map<String, Integer> varietyIndex = new HashMap<>();
  private final Compatibilities.Union[][] unions;

  /** By trait, the levels among which a stock without a rating is drawn. */
  private final Map<String, double[]> unrated = new HashMap<>();

  CropTables(TraitBook book, Crop crop, Growth growth) {
    this.book = book;
    this.crop = crop;
    this.growth = growth;
    pollination = Pollination.of(book, crop);
    Compatibilities compatibilities = new Compatibilities(book, crop);
    season = SeasonLength.of(book, crop);
    Advisable advisable = Advisable.of(book, crop);
    for (Stock stock : book.plants().stocks()) {
      if (stock.kind() == Stock.Kind.CLASS || !stock.crops().contains(crop)) continue;
      stockIndex.put(stock.id(), stocks.size());
      stocks.add(row(stock, advisable.stock(stock.id())));
    }
    for (Variety variety : book.plants().varieties()) {
      if (variety.crop() != crop) continue;
      varietyIndex.put(variety.id(), varieties.size());
      varieties.add(row(variety, advisable.variety(variety.id())));
    }
    unions = new Compatibilities.Union[stocks.size()][varieties.size()];
    for (int i = 0; i < unions.length; i++) {
      for (int j = 0; j < unions[i].length; j++)
        unions[i][j] = compatibilities.of(stocks.get(i).stock(), varieties.get(j).variety());
    }
    usualYieldKgPerM2 = usualYield();
  }

  Optional<Integer> stock(String id) {
    return Optional.ofNullable(stockIndex.get(id));
  }

  Optional<Integer> variety(String id) {
    return Optional.ofNullable(varietyIndex.get(id));
  }

  Compatibilities.Union union(int stock, int variety) {
    return unions[stock][variety];
  }

  private StockRow row(Stock stock, boolean advised) {
    Subject subject = new Subject.StockIn(crop, stock.id());
    Map<String, LevelDraws> levels = new HashMap<>();
    for (Rated rated : RatedCriteria.ALL)
      for (Rated.Part part : rated.parts()) level(subject, stock, part.trait(), levels);
    level(subject, stock, Hardy.WORD, levels);
    Map<String, LevelDraws> told = Map.copyOf(levels);
    return new StockRow(
        stock,
        growth.stock(stock.id()),
        advised,
        told,
        Hardy.ofStock(book, crop, stock.id(), levels.get(Hardy.WORD)),
        TrackRecord.of(book, subject),
        Scores.of(stock.id(), STOCK_SHARE),
        new Merits(told));
  }

  private VarietyRow row(Variety variety, boolean advised) {
    Subject subject = new Subject.OfVariety(crop, variety.id());
    Map<String, LevelDraws> levels = new HashMap<>();
    for (String trait : VARIETY_DISEASES) disease(subject, variety, trait, levels);
    return new VarietyRow(
        variety,
        growth.variety(variety.id()),
        advised,
        Map.copyOf(levels),
        Hardy.ofVariety(book, crop, variety.id()),
        Chilling.of(book, crop, variety.id(), "chill-hours"),
        Chilling.of(book, crop, variety.id(), "chill-portions"),
        PollenEase.of(book, crop, pollination.partnerNeed(variety.id())),
        Ripening.of(season, variety.id()),
        TrackRecord.of(book, subject),
        Scores.of(variety.id(), VARIETY_SHARE));
  }

  /**
   * A variety's resistance; of one that was never rated see {@link Satisfaction#unsaidResistance}.
   */
  private void disease(
      Subject subject, Variety variety, String traitId, Map<String, LevelDraws> levels) {
    Optional<Trait> trait =
        book.traits().find(traitId).filter(t -> t.scale() == Trait.Scale.LEVELS);
    if (trait.isEmpty()) return;
    Optional<Estimate> estimate = book.estimate(subject, traitId);
    if (estimate.isPresent()) varietyTraits.put(traitId, true);
    levels.put(
        traitId,
        LevelDraws.of(
            variety.id(),
            variety.name(),
            trait.get(),
            estimate,
            Satisfaction.unsaidResistance(trait.get().levels())));
  }

  private void level(Subject subject, Stock stock, String traitId, Map<String, LevelDraws> levels) {
    Optional<Trait> trait =
        book.traits().find(traitId).filter(t -> t.scale() == Trait.Scale.LEVELS);
    if (trait.isEmpty()) return;
    Optional<Estimate> estimate = book.estimate(subject, traitId);
    levels.put(
        traitId,
        LevelDraws.of(
            stock.id(),
            stock.name(),
            trait.get(),
            estimate,
            unrated.computeIfAbsent(traitId, t -> LevelDraws.spread(trait.get(), ratings(t)))));
    if (estimate.isPresent()) stockTraits.put(traitId, true);
  }

  /**
   * The crop's stocks' own ratings on a trait; what a clone borrows from its stock is left out, so
   * that no voice counts twice.
   */
  private List<Estimate> ratings(String trait) {
    return book.plants().stocks().stream()
        .filter(stock -> stock.kind() != Stock.Kind.CLASS && stock.crops().contains(crop))
        .flatMap(stock -> book.estimate(new Subject.StockIn(crop, stock.id()), trait).stream())
        .filter(estimate -> estimate.support().inheritedFrom().isEmpty())
        .toList();
  }

  /**
   * Median over the advised stocks of full-grown yield for the ground, under a middling variety on
   * a middling site.
   */
  private double usualYield() {
    double[] perArea =
        stocks.stream()
            .filter(StockRow::advised)
            .mapToDouble(
                row -> {
                  Expectations tree =
                      growth.expect(
                          row.growth(),
                          growth.variety(""),
                          growth.site(Site.UNKNOWN),
                          Goal.UNKNOWN);
                  return tree.yieldKgPerM2();
                })
            .sorted()
            .toArray();
    return perArea.length == 0 ? 2 : perArea[perArea.length / 2];
  }
}
