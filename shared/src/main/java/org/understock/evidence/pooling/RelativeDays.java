package org.understock.evidence.pooling;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
import org.understock.evidence.Estimate;
import org.understock.evidence.Evidence;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitRecord;
import org.understock.plant.Crop;
import org.understock.plant.Variety;
import org.understock.trait.Trait;
import org.understock.trait.Value;

/**
 * Pools days given against another variety (bloom, ripening): each source's list is a stratum in
 * which only differences count, and lists are linked through the varieties they share. The same
 * network model as for trial means, on the scale of days; the result is in days after the crop's
 * best-connected variety. Varieties on lists that nothing links to it get no estimate.
 */
final class RelativeDays {
  /**
   * Differences of less than about two days mean nothing (residual spread of the published fits:
   * 1.9 to 4.1 days).
   */
  private static final double OWN_SD_DAYS = 2;

  private RelativeDays() {}

  static Map<Subject, Estimate> pool(
      Evidence evidence,
      Trait trait,
      List<TraitRecord> records,
      Function<List<TraitRecord>, Estimate.Support> support) {
    Map<Crop, List<TraitRecord>> byCrop = new EnumMap<>(Crop.class);
    for (TraitRecord record : records)
      byCrop.computeIfAbsent(record.subject().crop(), c -> new ArrayList<>()).add(record);
    Map<Subject, Estimate> estimates = new LinkedHashMap<>();
    byCrop.forEach((crop, list) -> pool(evidence, trait, crop, list, support, estimates));
    return estimates;
  }

  private static void pool(
      Evidence evidence,
      Trait trait,
      Crop crop,
      List<TraitRecord> records,
      Function<List<TraitRecord>, Estimate.Support> support,
      Map<Subject, Estimate> estimates) {
    Map<String, Map<String, List<TraitRecord>>> lists = new TreeMap<>();
    TreeSet<String> varieties = new TreeSet<>();
    for (TraitRecord record : records) {
      String list = record.source() + " | " + reference(record);
      String variety = ((Subject.OfVariety) record.subject()).variety();
      varieties.add(variety);
      lists
          .computeIfAbsent(list, l -> new TreeMap<>())
          .computeIfAbsent(variety, v -> new ArrayList<>())
          .add(record);
    }
    // The variety that a list counts from stands in it at day 0, whether or not the list has a row
    // for it.
    Map<String, String> zeros = new HashMap<>();
    lists.forEach(
        (list, rows) ->
            evidence
                .plants()
                .resolveVariety(crop, reference(rows.values().iterator().next().get(0)))
                .map(Variety::id)
                .ifPresent(
                    zero -> {
                      zeros.put(list, zero);
                      varieties.add(zero);
                    }));
    List<String> items = List.copyOf(varieties);
    List<int[]> at = new ArrayList<>();
    List<Double> days = new ArrayList<>();
    int stratum = 0;
    for (Map.Entry<String, Map<String, List<TraitRecord>>> list : lists.entrySet()) {
      for (Map.Entry<String, List<TraitRecord>> row : list.getValue().entrySet()) {
        at.add(new int[] {stratum, items.indexOf(row.getKey())});
        days.add(row.getValue().stream().mapToDouble(RelativeDays::day).average().orElseThrow());
      }
      String zero = zeros.get(list.getKey());
      if (zero != null && !list.getValue().containsKey(zero)) {
        at.add(new int[] {stratum, items.indexOf(zero)});
        days.add(0.0);
      }
      stratum++;
    }
    List<Network.Row> rows = new ArrayList<>();
    for (int r = 0; r < at.size(); r++)
      rows.add(
          new Network.Row(
              at.get(r)[0], at.get(r)[1], 0, days.get(r), OWN_SD_DAYS * OWN_SD_DAYS, 1));
    Network network = Network.of(items.size(), rows);
    int reference = network.bestConnected();
    Network.Fit fit = network.degreesOfFreedom() < 1 ? network.fit(0, 0) : network.fit(false);
    Map<String, List<TraitRecord>> byVariety = new TreeMap<>();
    for (TraitRecord record : records)
      byVariety
          .computeIfAbsent(((Subject.OfVariety) record.subject()).variety(), k -> new ArrayList<>())
          .add(record);
    byVariety.forEach(
        (variety, own) -> {
          int item = items.indexOf(variety);
          if (!network.joined(item, reference) || !network.met(item)) return;
          double mean = fit.contrast(item, reference);
          double se =
              Math.hypot(fit.standardError(item, reference), OWN_SD_DAYS / Math.sqrt(own.size()));
          estimates.put(
              new Subject.OfVariety(crop, variety),
              new Estimate.Interval(
                  trait.unit(), mean, se, Math.sqrt(fit.tau2()), support.apply(own)));
        });
  }

  private static String reference(TraitRecord record) {
    return Objects.requireNonNull(record.context().relativeTo());
  }

  private static double day(TraitRecord record) {
    if (record.value() instanceof Value.Quantity quantity) return quantity.value();
    Value.Range range = (Value.Range) record.value();
    if (range.low() == null) return Objects.requireNonNull(range.high());
    return range.high() == null ? range.low() : (range.low() + range.high()) / 2;
  }
}
