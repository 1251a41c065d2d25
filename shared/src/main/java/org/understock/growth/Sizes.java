package org.understock.growth;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.Estimate;
import org.understock.evidence.Grade;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.plant.Crop;
import org.understock.plant.Stock;

/**
 * Size fractions of all stocks of a crop: published percentages of the standard tree joined with
 * trunk areas.
 *
 * <p>Trunk areas are ratios to the crop's reference stock, not to the standard tree, which trials
 * seldom hold. They are brought to the percentages' scale by a line fitted, log on log, through the
 * stocks that have both; its residual spread becomes uncertainty. Where too few stocks have both,
 * the priors speak, and the sizes come out wide.
 */
final class Sizes {
  /** The class that stands for the crop's full-sized tree; its size is 1 by definition. */
  static final String STANDARD = "standard-seedling";

  /*
   * Classes that tables print in place of a stock. Dwarf 25 to 60 % and semi-dwarf 60 to 90 % of standard: cooperative extension answers on apples
   * (ext-apples-qa in the evidence). "Stock not stated" is a judgement: mostly vigorous stocks, some not. They are never advised; they only
   * carry their rows into the curves.
   */
  private static final Map<String, Size> CLASSES =
      Map.of(
          STANDARD,
          new Size(1, 0.05, List.of(), Grade.D, Part.Basis.OWN),
          "size-class-dwarf",
          new Size(0.40, 0.30, List.of(), Grade.D, Part.Basis.OWN),
          "size-class-semi-dwarf",
          new Size(0.75, 0.15, List.of(), Grade.D, Part.Basis.OWN),
          "not-stated",
          new Size(0.85, 0.20, List.of(), Grade.D, Part.Basis.OWN));

  /**
   * Spread that a published percentage carries beyond its own: each table means a slightly
   * different standard tree.
   */
  private static final double PERCENT_SD_LOG = 0.06;

  /**
   * Tart cherry has no usual seedling class of its own: its published percentages are of the tree
   * on Mahaleb (cline-2020-montmorency-density), which is therefore the standard. One source puts
   * Mahaleb itself below Mazzard (wocior-2008-lutowka); that is another standard.
   */
  private static final Map<Crop, String> STANDARD_STOCK = Map.of(Crop.TART_CHERRY, "mahaleb");

  /**
   * How clones and strains of one stock differ in size, log scale: M.9 strains span about a quarter
   * (ext-apples-rootstock-info, 1994 NC-140).
   */
  private static final double STRAIN_SD_LOG = 0.1;

  /*
   * Intercept: the reference stock's own size, anything from dwarf to standard. Slope: where size classes are drawn by trunk area it is 1 by
   * definition (ny-honeycrisp-31-stocks); heights and trunk areas of the same trees, turned into sizes through the height line, give 0.4 to 0.5
   * (trials nc140-2010-honeycrisp, 17 stocks, and nc140-golden-kaysville, 6 stocks, with a standard tree of 6 to 9 m there). Loose, and nearer to
   * the measured.
   */
  private static final LinearFit.Prior TRUNK_PRIOR =
      new LinearFit.Prior(new double[] {Math.log(0.8), 0.5}, new double[] {0.5, 0.2}, 0.2, 3);

  private final Map<String, Size> byStock;
  private final LinearFit trunk;
  private final int calibratedOn;

  private Sizes(Map<String, Size> byStock, LinearFit trunk, int calibratedOn) {
    this.byStock = byStock;
    this.trunk = trunk;
    this.calibratedOn = calibratedOn;
  }

  static Sizes of(TraitBook book, Crop crop) {
    Map<String, Estimate.Quantity> percents = new LinkedHashMap<>();
    Map<String, Estimate.Ratio> trunks = new LinkedHashMap<>();
    List<Stock> stocks =
        book.plants().stocks().stream().filter(s -> s.crops().contains(crop)).toList();
    for (Stock stock : stocks) {
      Subject subject = new Subject.StockIn(crop, stock.id());
      if (Estimates.of(book, subject, "size-percent-of-standard") instanceof Estimate.Quantity q)
        percents.put(stock.id(), q);
      if (Estimates.of(book, subject, "trunk-cross-sectional-area") instanceof Estimate.Ratio r)
        trunks.put(stock.id(), r);
    }
    if (STANDARD_STOCK.containsKey(crop)) {
      percents.computeIfPresent(
          STANDARD_STOCK.get(crop),
          (id, q) ->
              new Estimate.Quantity(q.unit(), Math.log(100), 0.05, q.betweenLog(), q.support()));
    }
    List<LinearFit.Point> both = new ArrayList<>();
    trunks.forEach(
        (id, ratio) -> {
          Estimate.Quantity percent = percents.get(id);
          // a clone that borrows its parent's trunk area or percentage would count the parent twice
          if (percent == null
              || percent.support().inheritedFrom().isPresent()
              || ratio.support().inheritedFrom().isPresent()) return;
          both.add(
              new LinearFit.Point(
                  new double[] {1, ratio.logMean()},
                  fractionLog(percent),
                  percentVariance(percent) + square(ratio.standardErrorLog())));
        });
    LinearFit trunk = LinearFit.of(both, TRUNK_PRIOR);
    Map<String, Size> known = new LinkedHashMap<>();
    for (Stock stock : stocks) {
      Size size = join(percents.get(stock.id()), trunks.get(stock.id()), trunk);
      if (size == null) size = CLASSES.get(stock.id());
      if (size != null) known.put(stock.id(), size);
    }
    known.computeIfPresent(STANDARD, (id, size) -> CLASSES.get(id));
    for (Stock stock : stocks) {
      if (!known.containsKey(stock.id()))
        strains(stocks, stock, known).ifPresent(size -> known.put(stock.id(), size));
    }
    Map<String, Size> all = new LinkedHashMap<>();
    Size clone = typicalClone(stocks, known);
    for (Stock stock : stocks)
      all.put(stock.id(), known.getOrDefault(stock.id(), usual(stock.kind(), clone)));
    return new Sizes(all, trunk, both.size());
  }

  /**
   * The size of a stock; a stock that the crop's catalogue does not hold gets what is usual for a
   * clone.
   */
  Size of(String stock) {
    return byStock.getOrDefault(stock, Size.usual(0.75, 0.35));
  }

  Map<String, Size> all() {
    return byStock;
  }

  /** Slope of log size fraction on log trunk area. */
  double trunkSlope() {
    return trunk.coefficient(1);
  }

  /** Residual spread of the trunk calibration on the log scale. */
  double trunkResidualSd() {
    return trunk.residualSd();
  }

  /** Number of stocks with both a percentage and a trunk area. */
  int calibratedOn() {
    return calibratedOn;
  }

  /** The same sizes with those of some stocks replaced. */
  Sizes with(Map<String, Size> better) {
    Map<String, Size> all = new LinkedHashMap<>(byStock);
    all.putAll(better);
    return new Sizes(all, trunk, calibratedOn);
  }

  private static @Nullable Size join(
      Estimate.@Nullable Quantity percent, Estimate.@Nullable Ratio ratio, LinearFit trunk) {
    if (percent == null && ratio == null) return null;
    double weight = 0;
    double sum = 0;
    List<String> records = new ArrayList<>();
    Grade grade = Grade.D;
    if (percent != null) {
      double w = 1 / percentVariance(percent);
      weight += w;
      sum += w * fractionLog(percent);
      records.addAll(percent.support().records());
      grade = percent.support().grade();
    }
    if (ratio != null) {
      double[] x = {1, ratio.logMean()};
      double b = trunk.coefficient(1);
      double w =
          1
              / (square(trunk.residualSd())
                  + trunk.varianceAt(x)
                  + square(b * ratio.standardErrorLog()));
      weight += w;
      sum += w * trunk.at(x);
      records.addAll(ratio.support().records());
      if (ratio.support().grade().compareTo(grade) < 0) grade = ratio.support().grade();
    }
    return new Size(
        Math.exp(sum / weight), Math.sqrt(1 / weight), List.copyOf(records), grade, Part.Basis.OWN);
  }

  /**
   * The mean size of a stock's clones and strains, for a stock that trials met only under their
   * names.
   */
  private static Optional<Size> strains(List<Stock> stocks, Stock parent, Map<String, Size> known) {
    List<Size> strains =
        stocks.stream()
            .filter(s -> parent.id().equals(s.cloneOf()) && known.containsKey(s.id()))
            .map(s -> known.get(s.id()))
            .toList();
    if (strains.isEmpty()) return Optional.empty();
    double mean = strains.stream().mapToDouble(s -> Math.log(s.fraction())).average().orElseThrow();
    double own = strains.stream().mapToDouble(Size::sdLog).average().orElseThrow();
    List<String> records = strains.stream().flatMap(s -> s.records().stream()).distinct().toList();
    return Optional.of(
        new Size(
            Math.exp(mean),
            Math.hypot(own, STRAIN_SD_LOG),
            records,
            strains.get(0).grade(),
            Part.Basis.OWN));
  }

  /**
   * Mean and spread over the crop's clones of known size; a judgement where fewer than four are
   * known.
   */
  private static Size typicalClone(List<Stock> stocks, Map<String, Size> known) {
    double[] logs =
        stocks.stream()
            .filter(
                s ->
                    s.kind() == Stock.Kind.CLONE
                        && s.cloneOf() == null
                        && known.containsKey(s.id()))
            .mapToDouble(s -> Math.log(Objects.requireNonNull(known.get(s.id())).fraction()))
            .toArray();
    if (logs.length < 4) return Size.usual(0.75, 0.35);
    double mean = java.util.Arrays.stream(logs).sum() / logs.length;
    double variance =
        java.util.Arrays.stream(logs).map(l -> square(l - mean)).sum() / (logs.length - 1);
    return Size.usual(Math.exp(mean), Math.max(0.25, Math.sqrt(variance)));
  }

  /*
   * What is usual for a kind of stock of which no size is known (common practice, no source): seedlings and own roots make full-sized trees,
   * interstem trees about what the dwarfing piece makes (40 % in psu-fphg-table4-3), a clone anything that the crop's clones make.
   */
  private static Size usual(Stock.Kind kind, Size clone) {
    return switch (kind) {
      case SEEDLING -> Size.usual(1, 0.15);
      case OWN_ROOTS -> Size.usual(1, 0.25);
      case INTERSTEM -> Size.usual(0.4, 0.3);
      case CLONE, CLASS -> clone;
    };
  }

  private static double fractionLog(Estimate.Quantity percent) {
    return percent.logMean() - Math.log(100);
  }

  private static double percentVariance(Estimate.Quantity percent) {
    return square(percent.standardErrorLog()) + square(PERCENT_SD_LOG);
  }

  private static double square(double x) {
    return x * x;
  }
}
