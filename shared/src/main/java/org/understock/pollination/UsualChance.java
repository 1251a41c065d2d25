package org.understock.pollination;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;

/**
 * How often two different varieties of a crop can pollinate each other at least in part: the share
 * of ordered pairs that can, among the varieties whose S-genotype is known whole and undisputed. It
 * stands in where alleles are not recorded, since most pairs work.
 */
final class UsualChance {
  /** With fewer known varieties nothing is said. */
  private static final int FEWEST = 10;

  private UsualChance() {}

  /**
   * NaN where too few genotypes are known. Varieties are counted by genotype first, so the work
   * grows with the genotypes and not the varieties.
   */
  static double of(List<Flower> flowers) {
    Map<String, Integer> counts = new TreeMap<>();
    Map<String, Genotype> genotypes = new HashMap<>();
    int known = 0;
    for (Flower flower : flowers) {
      if (flower.genotypes().size() != 1
          || !flower.genotypes().get(0).complete()
          || flower.chromosomeSets() != 2) continue;
      Genotype genotype = flower.genotypes().get(0);
      counts.merge(genotype.label(), 1, Integer::sum);
      genotypes.putIfAbsent(genotype.label(), genotype);
      known++;
    }
    if (known < FEWEST) return Double.NaN;
    double decided = 0;
    double usable = 0;
    for (Map.Entry<String, Integer> d : counts.entrySet()) {
      for (Map.Entry<String, Integer> r : counts.entrySet()) {
        Verdict verdict =
            SRule.share(
                    Objects.requireNonNull(genotypes.get(d.getKey())),
                    Objects.requireNonNull(genotypes.get(r.getKey())),
                    2)
                .verdict();
        double pairs =
            d.getValue() * (double) (r.getValue() - (d.getKey().equals(r.getKey()) ? 1 : 0));
        if (verdict != Verdict.UNKNOWN) decided += pairs;
        if (verdict.isUsable()) usable += pairs;
      }
    }
    return decided == 0 ? Double.NaN : usable / decided;
  }
}
