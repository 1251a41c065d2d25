package org.understock.growth;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.understock.evidence.TraitBook;
import org.understock.plant.Crop;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.site.Goal;
import org.understock.site.Site;

/**
 * Growth of a crop's trees by one trait book: what each stock and each variety brings, ready to be
 * multiplied.
 *
 * <p>Compiled once per book and crop, immutable. {@link #expect} is a few multiplications and may
 * be called for every pairing of a request.
 */
public final class Growth {
  /*
   * Everything follows from two steps, both computed from the book when it is compiled:
   *
   * 1. Size of each stock as a fraction of the crop's standard tree (Sizes): published percentages joined with trunk areas.
   * 2. One line for each quantity (Curve) from that size to log height, spread, crop, years to crop and life, fitted on the stocks and
   *    size classes that have both. Lines of all crops are fitted together first and serve as loose priors of each crop's own line. A stock's
   *    own records then draw it away from the line, by inverse variance.
   *
   * So a stock tested only for trunk area still gets a height, with the spread that stocks show about the line; and a quantity without any record
   * in a crop is still answered, wide and marked as thin.
   */
  private final Crop crop;
  private final Map<String, StockGrowth> stocks;
  private final Map<String, VarietyGrowth> varieties;
  private final Spacing spacing;
  private final Sizes sizes;
  private final Map<Measure, Curve> curves;

  private Growth(
      Crop crop,
      Map<String, StockGrowth> stocks,
      Map<String, VarietyGrowth> varieties,
      Spacing spacing,
      Sizes sizes,
      Map<Measure, Curve> curves) {
    this.crop = crop;
    this.stocks = stocks;
    this.varieties = varieties;
    this.spacing = spacing;
    this.sizes = sizes;
    this.curves = curves;
  }

  /** Growth of one crop. To compile all crops of a book, {@link #all} is cheaper. */
  public static Growth of(TraitBook book, Crop crop) {
    return new Compiler(book).compile(crop);
  }

  /** Growth of every crop. */
  public static Map<Crop, Growth> all(TraitBook book) {
    Compiler compiler = new Compiler(book);
    Map<Crop, Growth> all = new EnumMap<>(Crop.class);
    for (Crop crop : Crop.values()) all.put(crop, compiler.compile(crop));
    return all;
  }

  public Crop crop() {
    return crop;
  }

  /**
   * A stock's growth; a stock that is not in the crop's catalogue grows as is usual in the crop,
   * with wide intervals and all of it thin.
   */
  public StockGrowth stock(String stockId) {
    StockGrowth growth = stocks.get(stockId);
    return growth != null
        ? growth
        : StockCompiler.of(
            stockId, sizes.of(stockId), crop, false, curves, SupportModel.Estimated.UNKNOWN);
  }

  /** A variety's vigour; a variety of which nothing is known is wide around a middling one. */
  public VarietyGrowth variety(String varietyId) {
    VarietyGrowth growth = varieties.get(varietyId);
    return growth != null ? growth : VarietyVigour.unknown(varietyId);
  }

  /** What a place does to the trees. */
  public SiteGrowth site(Site site) {
    return SiteGrowth.of(site);
  }

  /**
   * Whether every stock and variety of the crop grows to the last bit alike by both, and is spaced
   * alike.
   */
  public boolean sameAs(Growth other) {
    return crop == other.crop
        && stocks.equals(other.stocks)
        && varieties.equals(other.varieties)
        && spacing.sameAs(other.spacing);
  }

  /** What is to be expected of a variety on a stock at a place, kept towards a goal. */
  public Expectations expect(StockGrowth stock, VarietyGrowth variety, SiteGrowth site, Goal goal) {
    return spacing.expect(stock, variety, site, goal);
  }

  /** How the crop's sizes and lines came out: for the people who check the science. */
  public Calibration calibration() {
    Map<String, Line> lines = new LinkedHashMap<>();
    curves.forEach(
        (measure, curve) ->
            lines.put(
                measure.name().toLowerCase(java.util.Locale.ROOT),
                new Line(curve.points(), curve.slope(), curve.residualSd())));
    return new Calibration(
        sizes.calibratedOn(),
        sizes.trunkSlope(),
        sizes.trunkResidualSd(),
        java.util.Collections.unmodifiableMap(lines));
  }

  /**
   * @param trunkStocks number of stocks with both a trunk area and a percentage of standard
   * @param trunkSlope slope of log size on log trunk area
   * @param trunkResidualSd residual spread on the log scale
   * @param lines one for each quantity
   */
  public record Calibration(
      int trunkStocks, double trunkSlope, double trunkResidualSd, Map<String, Line> lines) {}

  /**
   * @param points number of published quantities that the line went through
   * @param slope log quantity for one standard tree's difference in size
   * @param residualSd spread of single stocks about the line, log scale
   */
  public record Line(int points, double slope, double residualSd) {}

  /** The steps that all crops share. */
  private static final class Compiler {
    private final TraitBook book;
    private final Map<Crop, Sizes> sizes = new EnumMap<>(Crop.class);
    private final Map<Measure, Curve.Common> commons = new EnumMap<>(Measure.class);
    private final SupportModel support;
    private final Alleys alleys;

    Compiler(TraitBook book) {
      this.book = book;
      for (Crop crop : Crop.values()) sizes.put(crop, Sizes.of(book, crop));
      for (Measure measure : Measure.values())
        commons.put(measure, Curve.common(book, measure, sizes));
      support = SupportModel.of(book, sizes);
      alleys = Alleys.of(book);
    }

    Growth compile(Crop crop) {
      Sizes known = sizes.get(crop);
      Curve height =
          Curve.of(
              book,
              crop,
              Measure.HEIGHT,
              Objects.requireNonNull(known),
              Objects.requireNonNull(commons.get(Measure.HEIGHT)));
      Sizes all = readBack(Objects.requireNonNull(known), height);
      Map<Measure, Curve> curves = new EnumMap<>(Measure.class);
      for (Measure measure : Measure.values())
        curves.put(
            measure,
            Curve.of(book, crop, measure, all, Objects.requireNonNull(commons.get(measure))));
      Map<String, StockGrowth> stocks = new LinkedHashMap<>();
      for (Stock stock : book.plants().stocks()) {
        if (!stock.crops().contains(crop)) continue;
        Size size = all.of(stock.id());
        boolean seedling = stock.kind() == Stock.Kind.SEEDLING;
        stocks.put(
            stock.id(),
            StockCompiler.of(
                stock.id(), size, crop, seedling, curves, support.of(crop, stock.id(), size)));
      }
      Map<String, VarietyGrowth> varieties = new LinkedHashMap<>();
      for (Variety variety : book.plants().varieties()) {
        if (variety.crop() == crop) varieties.put(variety.id(), VarietyVigour.of(book, variety));
      }
      return new Growth(crop, stocks, varieties, new Spacing(alleys.of(crop)), all, curves);
    }

    /**
     * Sizes of stocks with heights but neither percentage nor trunk area, read off the height line
     * backwards.
     */
    private static Sizes readBack(Sizes known, Curve height) {
      Map<String, Size> better = new LinkedHashMap<>();
      List<String> unknown = new ArrayList<>();
      known
          .all()
          .forEach(
              (stock, size) -> {
                if (size.basis() == Part.Basis.CROP) unknown.add(stock);
              });
      for (String stock : unknown) {
        Size size = height.sizeFrom(stock);
        if (size != null) better.put(stock, size);
      }
      return known.with(better);
    }
  }
}
