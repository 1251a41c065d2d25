package org.understock.growth;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.understock.evidence.Estimate;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.plant.Crop;

/**
 * Need of support. Published for about thirty stocks; for the others it is the average of those of
 * like size, because what makes trees need a stake, a brittle shallow root under a heavy crop, goes
 * with dwarfing.
 */
final class SupportModel {
  /**
   * Stocks whose sizes differ by this much (fraction of standard) count for 0.61 of one of the same
   * size.
   */
  private static final double BANDWIDTH = 0.15;

  /**
   * Weight of a stock of another crop beside one of the crop: support was published for apple and
   * cherry only.
   */
  private static final double OTHER_CROP = 0.1;

  /**
   * Common practice, no source: a tree of which nothing is told more often stands alone. Counts for
   * half a stock.
   */
  private static final double[] PRIOR = {0.35, 0.1, 0.05};

  private final List<Known> known;
  private final TraitBook book;

  private SupportModel(TraitBook book, List<Known> known) {
    this.book = book;
    this.known = known;
  }

  private record Known(Crop crop, double fraction, double[] need) {}

  /** Need of support with the records behind it. */
  record Estimated(SupportNeed need, List<String> records) {
    static final Estimated UNKNOWN = new Estimated(new SupportNeed(0.5, 0.25, 0.25), List.of());
  }

  static SupportModel of(TraitBook book, Map<Crop, Sizes> sizes) {
    List<Known> known = new ArrayList<>();
    for (Crop crop : Crop.values()) {
      Objects.requireNonNull(sizes.get(crop))
          .all()
          .forEach(
              (stock, size) -> {
                Estimate estimate =
                    Estimates.of(book, new Subject.StockIn(crop, stock), "support-need");
                if (estimate instanceof Estimate.Levels levels
                    && size.basis() != Part.Basis.CROP
                    && levels.support().inheritedFrom().isEmpty()) {
                  known.add(new Known(crop, size.fraction(), levels.probabilities()));
                }
              });
    }
    return new SupportModel(book, known);
  }

  Estimated of(Crop crop, String stock, Size size) {
    if (Estimates.of(book, new Subject.StockIn(crop, stock), "support-need")
        instanceof Estimate.Levels levels) {
      double[] p = levels.probabilities();
      return new Estimated(new SupportNeed(p[0], p[1], p[2]), levels.support().records());
    }
    double[] sum = PRIOR.clone();
    for (Known k : known) {
      double d =
          (k.fraction - size.fraction())
              / Math.hypot(BANDWIDTH, size.fraction() * size.sdLog() / 2);
      double w = Math.exp(-d * d / 2) * (k.crop == crop ? 1 : OTHER_CROP);
      for (int i = 0; i < sum.length; i++) sum[i] += w * k.need[i];
    }
    double total = sum[0] + sum[1] + sum[2];
    return new Estimated(
        new SupportNeed(sum[0] / total, sum[1] / total, 1 - sum[0] / total - sum[1] / total),
        List.of());
  }
}
