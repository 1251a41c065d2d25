package org.understock.advice;

import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.understock.climate.Hardiness;
import org.understock.evidence.Estimate;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.plant.Crop;
import org.understock.plant.Variety;

/**
 * The air temperature that a stock or variety bears in midwinter.
 *
 * @param drawsC draws of it, °C
 * @param meanC their mean
 * @param known whether anything is on record of this very subject
 */
record Hardy(double[] drawsC, double meanC, boolean known, List<String> records) {
  Hardy(double[] drawsC, boolean known, List<String> records) {
    this(drawsC, java.util.Arrays.stream(drawsC).average().orElseThrow(), known, records);
  }

  static final String LIMIT = "min-winter-temperature";
  static final String WORD = "winter-cold";

  /**
   * One whole hardiness zone as a 90 % interval: by this much zone lists disagree (see {@link
   * Hardiness}).
   */
  static final double ZONE_SD_C = 3.4;

  /**
   * A plant of which nothing is known, in a crop of which little is: zone 5 give or take (from
   * memory).
   */
  private static final double UNKNOWN_C = -28.9;

  private static final double UNKNOWN_SD_C = 6;

  /**
   * From the published temperature, or else from the word for its hardiness, each level standing
   * for a temperature.
   *
   * @param word draws of that word; null where the trait is not in use
   */
  static Hardy ofStock(TraitBook book, Crop crop, String stock, @Nullable LevelDraws word) {
    Subject subject = new Subject.StockIn(crop, stock);
    Optional<Hardy> measured = measured(book, subject, stock);
    if (measured.isPresent()) return measured.get();
    if (word == null) return normal(stock, UNKNOWN_C, UNKNOWN_SD_C, false, List.of());
    double[] z = Draws.normal("hardiness of " + stock);
    for (int d = 0; d < z.length; d++)
      z[d] = Hardiness.limitOf(word.trait().levels().get(word.draws()[d])) + ZONE_SD_C * z[d];
    return new Hardy(
        z, word.known(), word.estimate().map(e -> e.support().records()).orElse(List.of()));
  }

  /**
   * From the published temperature, or else from the spread of its crop's varieties that have one.
   */
  static Hardy ofVariety(TraitBook book, Crop crop, String variety) {
    Optional<Hardy> measured = measured(book, new Subject.OfVariety(crop, variety), variety);
    if (measured.isPresent()) return measured.get();
    double[] others =
        book.plants().varieties().stream()
            .filter(v -> v.crop() == crop)
            .map(Variety::id)
            .flatMap(id -> book.estimate(new Subject.OfVariety(crop, id), LIMIT).stream())
            .filter(Estimate.Interval.class::isInstance)
            .mapToDouble(e -> ((Estimate.Interval) e).mean())
            .toArray();
    if (others.length < 3) return normal(variety, UNKNOWN_C, UNKNOWN_SD_C, false, List.of());
    double mean = java.util.Arrays.stream(others).average().orElseThrow();
    double sd =
        Math.sqrt(
            java.util.Arrays.stream(others).map(x -> (x - mean) * (x - mean)).sum()
                / (others.length - 1));
    return normal(variety, mean, Math.hypot(sd, ZONE_SD_C), false, List.of());
  }

  private static Optional<Hardy> measured(TraitBook book, Subject subject, String name) {
    return book.estimate(subject, LIMIT)
        .filter(Estimate.Interval.class::isInstance)
        .map(Estimate.Interval.class::cast)
        .map(
            limit ->
                normal(
                    name,
                    limit.mean(),
                    Math.hypot(limit.standardError(), Math.max(limit.between(), ZONE_SD_C)),
                    true,
                    limit.support().records()));
  }

  private static Hardy normal(
      String subject, double meanC, double sdC, boolean known, List<String> records) {
    double[] x = Draws.normal("hardiness of " + subject);
    for (int d = 0; d < x.length; d++) x[d] = meanC + sdC * x[d];
    return new Hardy(x, known, List.copyOf(records));
  }

  Hardy with(double[] drawsC) {
    return new Hardy(drawsC, known, records);
  }
}
