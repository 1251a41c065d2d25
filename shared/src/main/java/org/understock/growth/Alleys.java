package org.understock.growth;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.understock.evidence.Estimate;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.plant.Crop;
import org.understock.plant.Stock;

/**
 * Room to walk and drive between rows: how much wider published rows are than the distance in the
 * row, the middle of each crop's stocks.
 */
final class Alleys {
  /**
   * Row minus in-row in home orchard tables is 1.5 to 2.4 m (home-fruit-guidelines-table2,
   * psu-fphg-table4-3); for a book without any spacing.
   */
  private static final double TABLES_M = 1.95;

  private final Map<Crop, Double> byCrop;

  private Alleys(Map<Crop, Double> byCrop) {
    this.byCrop = byCrop;
  }

  static Alleys of(TraitBook book) {
    Map<Crop, Double> byCrop = new EnumMap<>(Crop.class);
    List<Double> all = new ArrayList<>();
    Map<Crop, List<Double>> widths = new EnumMap<>(Crop.class);
    for (Crop crop : Crop.values()) {
      widths.put(crop, widths(book, crop));
      all.addAll(widths.get(crop));
    }
    double common = all.isEmpty() ? TABLES_M : median(all);
    for (Crop crop : Crop.values())
      byCrop.put(
          crop,
          Objects.requireNonNull(widths.get(crop)).size() < 3 ? common : median(widths.get(crop)));
    return new Alleys(byCrop);
  }

  /** Alley of a crop's orchards, in m. */
  double of(Crop crop) {
    return Objects.requireNonNull(byCrop.get(crop));
  }

  private static List<Double> widths(TraitBook book, Crop crop) {
    List<Double> widths = new ArrayList<>();
    for (Stock stock : book.plants().stocks()) {
      if (!stock.crops().contains(crop)) continue;
      Subject subject = new Subject.StockIn(crop, stock.id());
      if (Estimates.of(book, subject, "row-spacing") instanceof Estimate.Quantity row
          && row.support().inheritedFrom().isEmpty()
          && Estimates.of(book, subject, "in-row-spacing") instanceof Estimate.Quantity inRow) {
        double width = Math.exp(row.logMean()) - Math.exp(inRow.logMean());
        if (width > 0) widths.add(width);
      }
    }
    return widths;
  }

  private static double median(List<Double> values) {
    double[] sorted = values.stream().mapToDouble(Double::doubleValue).sorted().toArray();
    int n = sorted.length;
    return n % 2 == 1 ? sorted[n / 2] : (sorted[n / 2 - 1] + sorted[n / 2]) / 2;
  }
}
