package org.understock.bench;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import org.understock.evidence.TraitRecord;
import org.understock.evidence.pooling.Network;
import org.understock.migrations.StarterEvidence;
import org.understock.trait.Value;

/**
 * Tables of means that are pooled here and in R: the 2010 Fuji planting as it stands in the starter
 * evidence, and a larger one that is invented.
 */
final class Plantings {
  /** Variance of the log of every mean, the same for all. */
  private static final double VARIANCE = 0.01;

  private static final String FUJI = "nc140-2010-fuji";
  private static final String TRUNK = "trunk-cross-sectional-area";

  private static final int SITES = 60;
  private static final int STOCKS = 60;

  /** Chance that a stock stands at a site. */
  private static final double PLANTED = 0.4;

  private Plantings() {}

  /** The named table: {@code fuji} or {@code invented}. */
  static List<Network.Row> rows(String table) {
    return switch (table) {
      case "fuji" -> fuji();
      case "invented" -> invented();
      default -> throw new IllegalArgumentException("no such table: " + table);
    };
  }

  static Network network(List<Network.Row> rows) {
    return Network.of(1 + rows.stream().mapToInt(Network.Row::treatment).max().orElseThrow(), rows);
  }

  private static List<Network.Row> fuji() {
    Map<String, Integer> sites = new LinkedHashMap<>();
    Map<String, Integer> stocks = new LinkedHashMap<>();
    List<Network.Row> rows = new ArrayList<>();
    for (TraitRecord record : StarterEvidence.read().evidence().records()) {
      if (!FUJI.equals(record.context().trial()) || !record.trait().equals(TRUNK)) continue;
      if (String.valueOf(record.context().site()).startsWith("all")) continue;
      if (!(record.value() instanceof Value.Quantity mean)) continue;
      int site = sites.computeIfAbsent(record.context().site(), k -> sites.size());
      int stock = stocks.computeIfAbsent(record.subject().toString(), k -> stocks.size());
      rows.add(row(site, stock, Math.log(mean.value())));
    }
    return rows;
  }

  private static List<Network.Row> invented() {
    SplittableRandom random = new SplittableRandom(20260101);
    List<Network.Row> rows = new ArrayList<>();
    for (int site = 0; site < SITES; site++) {
      double level = random.nextGaussian();
      for (int stock = 0; stock < STOCKS; stock++) {
        double effect = 0.4 * Math.sin(stock);
        double noise = Math.sqrt(0.04 + VARIANCE) * random.nextGaussian();
        if (random.nextDouble() < PLANTED) rows.add(row(site, stock, level + effect + noise));
      }
    }
    return rows;
  }

  private static Network.Row row(int site, int stock, double y) {
    return new Network.Row(site, stock, 0, y, VARIANCE, 1);
  }

  /**
   * Prints the rows ({@code row table site stock y v}) and what they come to ({@code tau2 table
   * value}, {@code effect table stock value se}, against stock 0).
   */
  public static void main(String[] none) {
    for (String table : List.of("fuji", "invented")) {
      List<Network.Row> rows = rows(table);
      for (Network.Row r : rows)
        System.out.println(
            "row "
                + table
                + " "
                + r.stratum()
                + " "
                + r.treatment()
                + " "
                + r.y()
                + " "
                + r.variance());
      Network.Fit fit = network(rows).fit(false);
      System.out.println("tau2 " + table + " " + fit.tau2());
      int stocks = 1 + rows.stream().mapToInt(Network.Row::treatment).max().orElseThrow();
      for (int stock = 1; stock < stocks; stock++)
        System.out.println(
            "effect "
                + table
                + " "
                + stock
                + " "
                + fit.contrast(stock, 0)
                + " "
                + fit.standardError(stock, 0));
    }
  }
}
