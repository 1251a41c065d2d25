package org.understock.evidence.pooling;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.understock.evidence.Evidence;
import org.understock.evidence.TraitRecord;
import org.understock.migrations.StarterEvidence;
import org.understock.plant.Crop;
import org.understock.trait.Trait;

/**
 * How well the pooled intervals hold: each stratum (trial, site, scion) is left out in turn and predicted from the others. For every stock in it the
 * difference to the stratum's middle stock is compared with its 80 % interval: variance of the pooled contrast, twice the variance between sites, and
 * the sampling variances of the two left-out means.
 */
class CalibrationTest {
  /** 90th percentile of the standard normal: half-width of an 80 % interval. */
  private static final double Z = 1.2815515655446004;

  /** Contrasts from which a coverage is held to 80 % ± 8 %: its standard error is then below 3.3 %, before the correlation inside strata. */
  private static final int ENOUGH = 150;

  /**
   * Traits whose intervals are wider than they claim, known and not yet mended: the trunk areas' variance between sites is driven by the one planting under
   * another scion (residual spread 0.39 under 'Honeycrisp', 0.14 to 0.32 at the 'Fuji' sites), so a new 'Fuji' site is predicted with the doubt of a new
   * scion. A variance of stock under scion beside that of sites would part the two; {@link VarianceComponents} fits it, the pools do not use it yet.
   */
  private static final java.util.Set<String> TOO_WIDE = java.util.Set.of("trunk-cross-sectional-area");

  private record Tally(int contrasts, int inside) {
    Tally plus(boolean hit) {
      return new Tally(contrasts + 1, inside + (hit ? 1 : 0));
    }

    double coverage() {
      return 100.0 * inside / contrasts;
    }
  }

  @Test
  void left_out_strata_fall_into_their_80_percent_intervals() {
    Evidence evidence = StarterEvidence.read().evidence();
    Map<String, Map<Crop, List<TraitRecord>>> byTrait = new TreeMap<>();
    for (TraitRecord record : evidence.records()) {
      if (evidence.traits().get(record.trait()).scale() != Trait.Scale.CONTRAST) continue;
      byTrait.computeIfAbsent(record.trait(), t -> new EnumMap<>(Crop.class)).computeIfAbsent(record.subject().crop(), c -> new ArrayList<>()).add(record);
    }
    Map<String, Tally> tallies = new TreeMap<>();
    byTrait.forEach((trait, crops) -> {
      double usual = TrialPool.usualVariance(crops.values().stream().flatMap(List::stream).toList());
      crops.values().forEach(records -> leaveOut(trait, TrialPool.of(evidence, records, usual), tallies));
    });
    System.out.println("calibration: contrasts of left-out strata inside their 80 % intervals");
    tallies.forEach((trait, tally) -> System.out.printf(java.util.Locale.ROOT, "  %-28s %4d contrasts, %5.1f %%%n", trait, tally.contrasts(), tally.coverage()));
    int checked = 0;
    for (Map.Entry<String, Tally> entry : tallies.entrySet()) {
      if (entry.getValue().contrasts() < ENOUGH) continue;
      checked++;
      assertThat(entry.getValue().coverage()).as(entry.getKey() + ": intervals too narrow").isGreaterThanOrEqualTo(72.0);
      assertThat(entry.getValue().coverage() > 88.0).as(entry.getKey() + ": intervals too wide").isEqualTo(TOO_WIDE.contains(entry.getKey()));
    }
    assertThat(checked).as("traits with enough data").isGreaterThanOrEqualTo(2);
  }

  private static void leaveOut(String trait, TrialPool pool, Map<String, Tally> tallies) {
    for (int s = 0; s < pool.strata.size(); s++) {
      int out = s;
      List<TrialPool.Row> left = pool.rows.stream().filter(row -> row.stratum() == out).toList();
      List<TrialPool.Row> rest = pool.rows.stream().filter(row -> row.stratum() != out).toList();
      if (left.size() < 2 || rest.size() < 4) continue;
      int middle = left.get(left.size() / 2).item();
      NetworkModel.Fit fit = fit(pool, rest, middle);
      if (fit.degreesOfFreedom() < 5) continue;   // as in the pools: too few to know the variance between sites
      TrialPool.Row base = left.get(left.size() / 2);
      for (TrialPool.Row row : left) {
        if (row == base || Double.isNaN(fit.estimate()[row.item()])) continue;
        double se = fit.standardError()[row.item()];
        double sd = Math.sqrt(se * se + 2 * fit.tau2() + row.v() + base.v());
        boolean inside = Math.abs(row.y() - base.y() - fit.estimate()[row.item()]) <= Z * sd;
        tallies.merge(trait, new Tally(1, inside ? 1 : 0), (old, one) -> old.plus(inside));
      }
    }
  }

  private static NetworkModel.Fit fit(TrialPool pool, List<TrialPool.Row> rows, int reference) {
    return NetworkModel.fit(rows.stream().mapToInt(TrialPool.Row::stratum).toArray(), rows.stream().mapToInt(TrialPool.Row::item).toArray(),
        rows.stream().mapToDouble(TrialPool.Row::y).toArray(), rows.stream().mapToDouble(TrialPool.Row::v).toArray(), pool.items.size(), reference, pool.ties);
  }
}
