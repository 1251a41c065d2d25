package org.understock.advice;

import java.util.Arrays;
import org.understock.evidence.Estimate;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.plant.Crop;
import org.understock.plant.Variety;

/**
 * A variety's chilling requirement in one model, as draws of its natural log. Where nothing is
 * published of the variety, the requirement is one of its crop's: drawn from the spread over the
 * crop's varieties that have one, never converted from another model.
 *
 * @param known whether the variety has a requirement of its own in this model
 */
record Chilling(double[] draws, boolean known, java.util.List<String> records) {
  /** Spread of the log requirement that is left to a variety of which much is known. */
  static final double LEAST_SD = 0.08;

  /**
   * Requirement of a temperate fruit when the crop has fewer than three published: 300 to 1200 h,
   * or 20 to 80 portions (from memory).
   */
  private static final double WIDE_SD = 0.54;

  static Chilling of(TraitBook book, Crop crop, String variety, String trait) {
    var own =
        book.estimate(new Subject.OfVariety(crop, variety), trait)
            .filter(Estimate.Quantity.class::isInstance)
            .map(Estimate.Quantity.class::cast);
    double mean;
    double sd;
    if (own.isPresent()) {
      mean = own.get().logMean();
      sd = Math.max(LEAST_SD, own.get().predictionSdLog());
    } else {
      double[] logs =
          book.plants().varieties().stream()
              .filter(v -> v.crop() == crop)
              .map(Variety::id)
              .flatMap(id -> book.estimate(new Subject.OfVariety(crop, id), trait).stream())
              .filter(Estimate.Quantity.class::isInstance)
              .mapToDouble(e -> ((Estimate.Quantity) e).logMean())
              .toArray();
      boolean enough = logs.length >= 3;
      mean =
          enough
              ? Arrays.stream(logs).average().orElseThrow()
              : Math.log(trait.equals("chill-hours") ? 600 : 40);
      double centre = mean;
      sd =
          enough
              ? Math.max(
                  0.2,
                  Math.sqrt(
                      Arrays.stream(logs).map(x -> (x - centre) * (x - centre)).sum()
                          / (logs.length - 1)))
              : WIDE_SD;
    }
    double[] draws = Draws.normal(trait + " of " + variety);
    for (int d = 0; d < draws.length; d++) draws[d] = mean + sd * draws[d];
    return new Chilling(
        draws, own.isPresent(), own.map(e -> e.support().records()).orElse(java.util.List.of()));
  }

  Chilling with(double[] draws) {
    return new Chilling(draws, known, records);
  }

  double quantile(double p) {
    double[] sorted = draws.clone();
    Arrays.sort(sorted);
    return Math.exp(sorted[(int) (p * sorted.length)]);
  }

  double median() {
    return Math.exp(Arrays.stream(draws).average().orElseThrow());
  }
}
