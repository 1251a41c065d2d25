package org.understock.evidence.pooling;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.Context;
import org.understock.evidence.Evidence;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitRecord;
import org.understock.plant.Stock;
import org.understock.trait.Value;

/**
 * Arranges one crop's trial means of one trait for the {@link Network}: strata, one planting
 * counted once, sampling variances, clones tied to their stock.
 */
final class TrialPool {
  /*
   * Rules, each a judgement where no formula decides:
   * - a stratum is one trial x site x scion; of a planting only the last measured year is used;
   * - a mean over sites is left out where the same trial's single sites are there; alone its means vary
   *   less from site to site, by the number of sites where its locator or note tells it ("10 sites"), else as one site;
   * - a stock standing twice in a stratum (two sources on one planting) is averaged;
   * - means seen in an abstract only are extremes that its authors chose to print: all their variance is doubled, so they weigh half;
   * - a spread is used where printed; elsewhere the median of the variances computed from printed spreads of the same trait, over all crops, serves;
   * - clones of a stock differ a priori by 12 % (sd of the log), about the span of the M.9 clones in the 1994 NC-140 planting.
   */
  static final double CLONE_SD = 0.12;
  private static final double ABSTRACT_FACTOR = 2;
  private static final double DEFAULT_VARIANCE = 0.01;
  private static final int USUAL_TREES = 8;

  private static final Pattern SITES = Pattern.compile("\\b(\\d{1,2}) sites\\b");

  /**
   * What ω² needs to be told from τ²: this many scions, and degrees of freedom both between scions
   * and inside them.
   */
  private static final int ENOUGH_SCIONS = 3;

  private static final int ENOUGH_FREEDOM = 5;

  /**
   * One row for the model: records of one stock in one stratum.
   *
   * @param share of τ²: 1 at one site, 1/m for a mean over m sites; doubled for a mean seen in an
   *     abstract only
   */
  record Row(int stratum, int item, double y, double v, double share, List<String> records) {}

  /** A clone and its stock. */
  private record Tie(int item, int other) {}

  final List<String> items;
  final List<Row> rows;
  final List<String> strata;
  private final List<Tie> ties;
  private final List<Integer> scions;

  private TrialPool(
      List<String> items,
      List<Row> rows,
      List<String> strata,
      List<Integer> scions,
      List<Tie> ties) {
    this.items = items;
    this.rows = rows;
    this.strata = strata;
    this.scions = scions;
    this.ties = ties;
  }

  /**
   * @param records of one crop and trait, about stocks
   * @param usualVariance variance of the log of a mean where its table prints none
   */
  static TrialPool of(Evidence evidence, List<TraitRecord> records, double usualVariance) {
    Map<String, List<TraitRecord>> byStratum = new TreeMap<>();
    for (TraitRecord record : lastYears(singleSites(records))) {
      if (value(record) > 0)
        byStratum.computeIfAbsent(planting(record), k -> new ArrayList<>()).add(record);
    }
    Map<String, Integer> index = new TreeMap<>();
    byStratum.values().forEach(list -> list.forEach(r -> index.put(stock(r), 0)));
    Map<String, Stock> parents = new HashMap<>();
    for (String id : List.copyOf(index.keySet())) {
      Stock stock = evidence.plants().stock(id).orElseThrow();
      parents.put(id, stock);
      if (stock.cloneOf() != null) index.putIfAbsent(stock.cloneOf(), 0);
    }
    List<String> items = List.copyOf(index.keySet());
    for (int k = 0; k < items.size(); k++) index.put(items.get(k), k);
    List<Tie> ties = new ArrayList<>();
    parents.forEach(
        (id, stock) -> {
          if (stock.cloneOf() != null)
            ties.add(
                new Tie(
                    Objects.requireNonNull(index.get(id)),
                    Objects.requireNonNull(index.get(stock.cloneOf()))));
        });
    ties.sort(Comparator.comparingInt(Tie::item));
    List<Row> rows = new ArrayList<>();
    List<String> strata = new ArrayList<>();
    List<Integer> scions = new ArrayList<>();
    Map<String, Integer> scionIndex = new TreeMap<>();
    byStratum.forEach(
        (key, list) -> {
          rows(evidence, list, strata.size(), index, usualVariance, rows);
          strata.add(key);
          scions.add(
              scionIndex.computeIfAbsent(
                  String.valueOf(list.get(0).context().scion()), k -> scionIndex.size()));
        });
    return new TrialPool(items, rows, strata, scions, ties);
  }

  private static void rows(
      Evidence evidence,
      List<TraitRecord> stratum,
      int s,
      Map<String, Integer> index,
      double usualVariance,
      List<Row> rows) {
    double level = stratum.stream().mapToDouble(TrialPool::value).average().orElseThrow();
    Map<String, List<TraitRecord>> byStock = new TreeMap<>();
    for (TraitRecord record : stratum)
      byStock.computeIfAbsent(stock(record), k -> new ArrayList<>()).add(record);
    byStock.forEach(
        (stock, list) -> {
          double y = 0;
          double v = 0;
          double share = 0;
          for (TraitRecord record : list) {
            y += Math.log(value(record)) / list.size();
            double own = printedVariance(record, byStock.size(), level);
            double factor = seenInAbstract(evidence, record) ? ABSTRACT_FACTOR : 1;
            v += (Double.isNaN(own) ? usualVariance : own) * factor / list.size();
            share += factor / sites(record) / list.size();
          }
          rows.add(
              new Row(
                  s,
                  Objects.requireNonNull(index.get(stock)),
                  y,
                  v,
                  share,
                  list.stream().map(TraitRecord::id).sorted().toList()));
        });
  }

  /**
   * Median over all records of a trait of the variances that their printed spreads give; a default
   * where none prints one.
   */
  static double usualVariance(List<TraitRecord> records) {
    Map<String, List<TraitRecord>> byStratum = new TreeMap<>();
    for (TraitRecord record : records)
      byStratum.computeIfAbsent(planting(record), k -> new ArrayList<>()).add(record);
    List<Double> variances = new ArrayList<>();
    byStratum
        .values()
        .forEach(
            list -> {
              double level = list.stream().mapToDouble(TrialPool::value).average().orElseThrow();
              int stocks = (int) list.stream().map(TrialPool::stock).distinct().count();
              for (TraitRecord record : list) {
                double v = printedVariance(record, stocks, level);
                if (!Double.isNaN(v)) variances.add(v);
              }
            });
    if (variances.isEmpty()) return DEFAULT_VARIANCE;
    variances.sort(null);
    return variances.get(variances.size() / 2);
  }

  private static double printedVariance(TraitRecord record, int stocks, double level) {
    Context.@Nullable Spread spread = record.context().spread();
    if (spread == null || !(spread.value() > 0) || !(level > 0) || stocks < 2) return Double.NaN;
    int trees = record.context().trees() == null ? USUAL_TREES : record.context().trees();
    // Error degrees of freedom are not printed with the means: those of a one-way layout with these
    // trees.
    return TukeyQuantiles.variance(spread, stocks, Math.max(1, stocks * (trees - 1)), trees, level);
  }

  /** The studentized range is dear: one quantile serves all means of a table. */
  private static final class TukeyQuantiles {
    private static final Map<Long, Double> QUANTILES =
        new java.util.concurrent.ConcurrentHashMap<>();

    static double variance(Context.Spread spread, int stocks, int df, int trees, double level) {
      if (spread.kind() != Context.Spread.Kind.HSD)
        return SamplingVariance.of(spread, stocks, df, trees, level);
      double q =
          QUANTILES.computeIfAbsent(
              (long) stocks << 32 | df, k -> StudentizedRange.quantile(0.95, stocks, df));
      double se = spread.value() / q / level;
      return se * se;
    }
  }

  private static List<TraitRecord> singleSites(List<TraitRecord> records) {
    Set<String> withSites = new HashSet<>();
    for (TraitRecord record : records) if (!overSites(record)) withSites.add(trial(record));
    return records.stream().filter(r -> !overSites(r) || !withSites.contains(trial(r))).toList();
  }

  private static List<TraitRecord> lastYears(List<TraitRecord> records) {
    Map<String, Integer> last = new HashMap<>();
    for (TraitRecord record : records) last.merge(planting(record), year(record), Math::max);
    return records.stream()
        .filter(r -> year(r) == Objects.requireNonNull(last.get(planting(r))))
        .toList();
  }

  private static boolean overSites(TraitRecord record) {
    return Context.ALL_SITES.equals(record.context().site());
  }

  private static boolean seenInAbstract(Evidence evidence, TraitRecord record) {
    String note = Objects.requireNonNull(evidence.sources().get(record.source())).note();
    return record.locator().contains("abstract")
        || note.startsWith("abstract")
        || note.contains("abstract seen")
        || note.contains("abstract only");
  }

  private static int sites(TraitRecord record) {
    Matcher told = SITES.matcher(record.locator() + ' ' + record.note());
    return overSites(record) && told.find() ? Math.max(1, Integer.parseInt(told.group(1))) : 1;
  }

  private static String trial(TraitRecord record) {
    return record.context().trial() == null ? record.source() : record.context().trial();
  }

  static String planting(TraitRecord record) {
    return trial(record) + " | " + record.context().site() + " | " + record.context().scion();
  }

  private static int year(TraitRecord record) {
    return record.context().measuredYear() == null ? 0 : record.context().measuredYear();
  }

  private static String stock(TraitRecord record) {
    return ((Subject.StockIn) record.subject()).stock();
  }

  private static double value(TraitRecord record) {
    if (record.value() instanceof Value.Quantity quantity) return quantity.value();
    Value.Range range = (Value.Range) record.value();
    if (range.low() == null || range.high() == null) return 0;
    return (range.low() + range.high()) / 2;
  }

  /** Number of strata of two or more stocks by stock, for choosing a crop's reference. */
  Map<String, Integer> met() {
    Map<String, Integer> met = new TreeMap<>();
    stocksByStratum(rows)
        .values()
        .forEach(s -> s.forEach(item -> met.merge(items.get(item), 1, Integer::sum)));
    return met;
  }

  /**
   * The network of these rows, its scions as groups. A clone's tie to its stock is one more stratum
   * in which both stand at 0 with half the tie's variance each and no share of τ² or ω²: the same
   * as a normal prior on their difference.
   */
  Network network(List<Row> of) {
    List<Network.Row> all = new ArrayList<>();
    for (Row row : of)
      all.add(
          new Network.Row(
              row.stratum(), row.item(), scion(row.stratum()), row.y(), row.v(), row.share()));
    int next = strata.size();
    for (Tie tie : ties) {
      all.add(new Network.Row(next, tie.item(), Network.NO_GROUP, 0, CLONE_SD * CLONE_SD / 2, 0));
      all.add(
          new Network.Row(next++, tie.other(), Network.NO_GROUP, 0, CLONE_SD * CLONE_SD / 2, 0));
    }
    return Network.of(items.size(), all);
  }

  /** Group of a stratum in the network: its scion. */
  int scion(int stratum) {
    return scions.get(stratum);
  }

  /**
   * Whether a variance of a stock under a scion (ω²) can be told from that of a stock at a site:
   * {@value #ENOUGH_SCIONS} scions or more, and at least {@value #ENOUGH_FREEDOM} degrees of
   * freedom both between scions (cells less stocks and scions) and inside them (means less cells
   * and strata).
   */
  boolean tellsScionsApart(List<Row> of) {
    Map<Integer, Set<Integer>> stocksByStratum = stocksByStratum(of);
    Set<Integer> met = new HashSet<>();
    Set<Integer> scionsMet = new HashSet<>();
    Set<List<Integer>> cells = new HashSet<>();
    int means = 0;
    for (Map.Entry<Integer, Set<Integer>> stratum : stocksByStratum.entrySet()) {
      int scion = scion(stratum.getKey());
      scionsMet.add(scion);
      met.addAll(stratum.getValue());
      for (int item : stratum.getValue()) cells.add(List.of(scion, item));
      means += stratum.getValue().size();
    }
    int between = cells.size() - met.size() - scionsMet.size() + 1;
    int within = means - cells.size() - stocksByStratum.size() + scionsMet.size();
    return scionsMet.size() >= ENOUGH_SCIONS
        && between >= ENOUGH_FREEDOM
        && within >= ENOUGH_FREEDOM;
  }

  /** Items by stratum, strata of two items or more. */
  private static Map<Integer, Set<Integer>> stocksByStratum(List<Row> of) {
    Map<Integer, Set<Integer>> stocks = new TreeMap<>();
    for (Row row : of) stocks.computeIfAbsent(row.stratum(), k -> new HashSet<>()).add(row.item());
    stocks.values().removeIf(items -> items.size() < 2);
    return stocks;
  }
}
