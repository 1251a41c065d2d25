package org.understock.evidence.pooling;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.understock.evidence.Evidence;
import org.understock.evidence.TraitRecord;
import org.understock.migrations.StarterEvidence;
import org.understock.plant.Crop;
import org.understock.trait.Trait;

/**
 * How well the pooled intervals hold: each stratum (trial, site, scion) is left out in turn and
 * predicted from the others. For every stock in it the difference to the average of the stratum's
 * other stocks is compared with its 80 % interval: variance of the pooled effects, of the stock
 * under that scion (mostly known when the scion stands at another site too, ω² when it does not),
 * of a new site for each stock, and of the left-out means.
 *
 * <p>Printed beside it, and not held to anything: the same differences against the interval that
 * estimates show, which is for a variety of which nothing is known. It has to be wider, since most
 * left-out strata stand under a scion that other sites had too.
 */
class CalibrationTest {
  /** 90th percentile of the standard normal: half-width of an 80 % interval. */
  private static final double Z = 1.2815515655446004;

  /**
   * Contrasts from which a coverage is held to 80 % ± 8 %: its standard error is then below 3.3 %,
   * before the correlation inside strata.
   */
  private static final int ENOUGH = 150;

  /**
   * One mean of a left-out stratum against the average of the others in it, on the log scale.
   *
   * @param sd standard deviation that the pool gave the difference between found and predicted
   */
  record LeftOut(double predicted, double found, double sd) {
    boolean within(double halfWidth) {
      return Math.abs(found - predicted) <= halfWidth * sd;
    }
  }

  /** Share of left-out means, in percent, inside the interval of a half-width in deviations. */
  static double held(List<LeftOut> means, double halfWidth) {
    return 100.0 * means.stream().filter(m -> m.within(halfWidth)).count() / means.size();
  }

  @Test
  void left_out_strata_fall_into_their_80_percent_intervals() {
    Evidence evidence = StarterEvidence.read().evidence();
    Map<String, Map<Crop, List<TraitRecord>>> byTrait = new TreeMap<>();
    for (TraitRecord record : evidence.records()) {
      if (evidence.traits().get(record.trait()).scale() != Trait.Scale.CONTRAST) continue;
      byTrait
          .computeIfAbsent(record.trait(), t -> new EnumMap<>(Crop.class))
          .computeIfAbsent(record.subject().crop(), c -> new ArrayList<>())
          .add(record);
    }
    Map<String, List<LeftOut>> tallies = new TreeMap<>();
    Map<String, List<LeftOut>> unknown = new TreeMap<>();
    byTrait.forEach(
        (trait, crops) -> {
          double usual =
              TrialPool.usualVariance(crops.values().stream().flatMap(List::stream).toList());
          crops
              .values()
              .forEach(
                  records ->
                      leaveOut(trait, TrialPool.of(evidence, records, usual), tallies, unknown));
        });
    System.out.println("calibration: contrasts of left-out strata inside their 80 % intervals");
    tallies.forEach(
        (trait, means) ->
            System.out.printf(
                java.util.Locale.ROOT,
                "  %-28s %4d contrasts, %5.1f %%; against the interval for an unknown variety %5.1f %%%n",
                trait,
                means.size(),
                held(means, Z),
                held(Objects.requireNonNull(unknown.get(trait)), Z)));
    int checked = 0;
    for (Map.Entry<String, List<LeftOut>> entry : tallies.entrySet()) {
      if (entry.getValue().size() < ENOUGH) continue;
      checked++;
      assertThat(held(entry.getValue(), Z)).as(entry.getKey()).isBetween(72.0, 88.0);
    }
    assertThat(checked).as("traits with enough data").isGreaterThanOrEqualTo(2);
    tallies.values().forEach(means -> CalibrationPlots.told(means.size(), held(means, Z)));
    Map<String, List<LeftOut>> drawn = new TreeMap<>(tallies);
    drawn.values().removeIf(means -> means.size() < ENOUGH);
    CalibrationPlots.check("calibration-held.svg", CalibrationPlots.held(drawn));
    CalibrationPlots.check("calibration-found.svg", CalibrationPlots.found(drawn));
  }

  private static void leaveOut(
      String trait,
      TrialPool pool,
      Map<String, List<LeftOut>> tallies,
      Map<String, List<LeftOut>> unknown) {
    for (int s = 0; s < pool.strata.size(); s++) {
      int out = s;
      List<TrialPool.Row> rest = pool.rows.stream().filter(row -> row.stratum() != out).toList();
      Network network = pool.network(rest);
      if (network.degreesOfFreedom() < 5)
        continue; // as in the pools: too few to know the variance between sites
      int reference = network.bestConnected();
      List<TrialPool.Row> left =
          pool.rows.stream()
              .filter(
                  row ->
                      row.stratum() == out
                          && network.met(row.item())
                          && network.joined(row.item(), reference))
              .toList();
      if (left.size() < 2) continue;
      Network.Fit fit = network.fit(pool.tellsScionsApart(rest));
      int[] items = left.stream().mapToInt(TrialPool.Row::item).toArray();
      tally(trait, left, fit, fit.under(pool.scion(out), items), tallies);
      tally(trait, left, fit, fit.under(Network.NO_GROUP - 1, items), unknown);
    }
  }

  private static void tally(
      String trait,
      List<TrialPool.Row> left,
      Network.Fit fit,
      UnderGroup known,
      Map<String, List<LeftOut>> tallies) {
    int n = left.size();
    for (int k = 0; k < n; k++) {
      double predicted = 0;
      double found = 0;
      double variance = 0;
      for (int i = 0; i < n; i++) {
        double c = i == k ? 1 : -1.0 / (n - 1);
        predicted += c * known.mean()[i];
        found += c * left.get(i).y();
        variance += c * c * (left.get(i).share() * fit.tau2() + left.get(i).v());
        for (int j = 0; j < n; j++)
          variance += c * (j == k ? 1 : -1.0 / (n - 1)) * known.covariance().get(i, j);
      }
      tallies
          .computeIfAbsent(trait, t -> new ArrayList<>())
          .add(new LeftOut(predicted, found, Math.sqrt(variance)));
    }
  }
}
