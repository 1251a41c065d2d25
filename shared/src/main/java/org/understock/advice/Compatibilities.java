package org.understock.advice;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.evidence.TraitRecord;
import org.understock.plant.Crop;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.trait.Value;

/**
 * What is published of the union between stocks and varieties of one crop.
 *
 * <p>A statement about the very pairing outweighs one about varieties at large. Statements are
 * averaged with equal voices: most are verdicts of "no failure seen in N years" or its opposite,
 * and a conflict between them must stay visible as a middling chance.
 */
final class Compatibilities {
  static final String TRAIT = "compatibility";

  /**
   * Chance that the union holds for the life of the tree, by verdict: a judgement (common practice,
   * no source).
   */
  private static final Map<String, Double> CHANCE =
      Map.of(
          "compatible",
          1.0,
          "needs-interstem",
          0.5,
          "delayed-incompatible",
          0.15,
          "incompatible",
          0.0);

  private final Map<String, List<TraitRecord>> named = new HashMap<>();
  private final Map<String, List<TraitRecord>> atLarge = new HashMap<>();
  private final Map<String, List<TraitRecord>> failures = new HashMap<>();
  private final TraitBook book;

  Compatibilities(TraitBook book, Crop crop) {
    this.book = book;
    for (TraitRecord record : book.evidence().records()) {
      if (!record.trait().equals(TRAIT)
          || !(record.subject() instanceof Subject.Pairing pairing)
          || pairing.crop() != crop) continue;
      if (pairing.variety() == null) {
        atLarge.computeIfAbsent(pairing.stock(), s -> new ArrayList<>()).add(record);
      } else {
        named
            .computeIfAbsent(key(pairing.stock(), pairing.variety()), s -> new ArrayList<>())
            .add(record);
        if (chance(record) < 0.6)
          failures.computeIfAbsent(pairing.stock(), s -> new ArrayList<>()).add(record);
      }
    }
  }

  /**
   * @param chance 0 to 1 that the union holds; 1 where nothing speaks against it
   * @param known whether anything is published about this pairing or about the stock under
   *     varieties at large
   * @param interstem name of the stock to put between, where a source says so
   * @param elsewhere names of varieties on which the stock is known to fail, when this pairing
   *     itself is unknown
   */
  record Union(
      double chance,
      boolean known,
      List<String> verdicts,
      List<String> records,
      @Nullable String interstem,
      List<String> elsewhere) {}

  Union of(Stock stock, Variety variety) {
    List<TraitRecord> own = lookup(named, stock, variety.id());
    if (!own.isEmpty())
      return union(own, own.stream().mapToDouble(Compatibilities::chance).average().orElse(1));
    List<TraitRecord> large = lookup(atLarge, stock, null);
    List<TraitRecord> failed = lookup(failures, stock, null);
    if (!large.isEmpty()) {
      double chance =
          large.stream().mapToDouble(Compatibilities::chanceAtLarge).average().orElse(1);
      return union(large, failed.isEmpty() ? chance : Math.min(chance, 0.96));
    }
    if (failed.isEmpty()) return new Union(1, false, List.of(), List.of(), null, List.of());
    Set<String> names = new LinkedHashSet<>();
    for (TraitRecord record : failed) {
      String id = ((Subject.Pairing) record.subject()).variety();
      if (id != null) names.add(book.plants().variety(id).map(Variety::name).orElse(id));
    }
    return new Union(
        0.85,
        false,
        List.of(),
        failed.stream().map(TraitRecord::id).toList(),
        null,
        List.copyOf(names));
  }

  private Union union(List<TraitRecord> records, double chance) {
    Set<String> verdicts = new LinkedHashSet<>();
    String interstem = null;
    for (TraitRecord record : records) {
      verdicts.add(((Value.Level) record.value()).level());
      if (record.context().interstem() != null) interstem = record.context().interstem();
    }
    return new Union(
        chance,
        true,
        List.copyOf(verdicts),
        records.stream().map(TraitRecord::id).toList(),
        interstem,
        List.of());
  }

  /** The statements of the nearest stock that has any; see {@link Stock#lineage}. */
  private List<TraitRecord> lookup(
      Map<String, List<TraitRecord>> records, Stock stock, @Nullable String variety) {
    for (String id : stock.lineage()) {
      List<TraitRecord> found = records.get(variety == null ? id : key(id, variety));
      if (found != null) return found;
    }
    return List.of();
  }

  private static double chance(TraitRecord record) {
    return Objects.requireNonNull(CHANCE.get(((Value.Level) record.value()).level()));
  }

  /** "Some varieties fail" says little about one of them; "all" and "most" say much. */
  private static double chanceAtLarge(TraitRecord record) {
    double chance = chance(record);
    double reach =
        switch (((Subject.Pairing) record.subject()).reach()) {
          case NAMED, ALL -> 1;
          case MOST -> 0.9;
          case SOME -> 0.4;
        };
    return 1 - reach * (1 - chance);
  }

  private static String key(String stock, String variety) {
    return stock + '|' + variety;
  }
}
