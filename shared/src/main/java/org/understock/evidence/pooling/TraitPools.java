package org.understock.evidence.pooling;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.Estimate;
import org.understock.evidence.Evidence;
import org.understock.evidence.Grade;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitRecord;
import org.understock.plant.Crop;
import org.understock.trait.Trait;
import org.understock.trait.Value;

/** Pools every trait of an evidence set, each by its scale. */
public final class TraitPools {
  /** Standard deviation on the log scale between the clones of one stock. */
  public static final double CLONE_SD_LOG = TrialPool.CLONE_SD;

  /** Degrees of freedom below which a fit's own variance between sites is not trusted. */
  private static final int FEW_DEGREES = 5;

  /**
   * Variance between sites of one stock's log mean where nothing better is known: that of trunk
   * area in the 2010 Fuji planting, six sites.
   */
  private static final double USUAL_TAU2 = 0.033;

  /**
   * What the root does whatever stands on it: a stock that is rated for these under one crop is, in
   * want of anything better, taken so under another (common practice, no source).
   */
  private static final Set<String> ROOT_TRAITS =
      Set.of(
          "wet-soil",
          "heavy-soil",
          "light-soil",
          "drought",
          "lime-high-ph",
          "salinity",
          "winter-cold",
          "anchorage",
          "suckering",
          "crown-rot-phytophthora",
          "root-knot-nematode",
          "ring-nematode",
          "lesion-nematode",
          "oak-root-fungus",
          "verticillium",
          "crown-gall",
          "bacterial-canker");

  private final Evidence evidence;
  private final Map<String, Map<String, Estimate>> underAnyCrop = new HashMap<>();
  private final Map<Subject, Map<String, Estimate>> estimates = new HashMap<>();
  private final Map<Crop, String> references = new EnumMap<>(Crop.class);
  private final Map<String, List<TraitRecord>> byTrait = new TreeMap<>();

  private TraitPools(Evidence evidence) {
    this.evidence = evidence;
    for (TraitRecord record : evidence.records())
      byTrait.computeIfAbsent(record.trait(), t -> new ArrayList<>()).add(record);
  }

  public static TraitPools of(Evidence evidence) {
    return of(evidence, null);
  }

  /**
   * The same pools, made with less work: a trait whose records are those of another revision, with
   * all that they are read by, is taken over from it. Trial means are one piece, for a crop's
   * reference stock and what is carried over between crops depend on all of them.
   *
   * @param near the pools of a revision that differs in little, if there is one
   */
  public static TraitPools of(Evidence evidence, @Nullable TraitPools near) {
    TraitPools pools = new TraitPools(evidence);
    Map<String, List<TraitRecord>> changed = new TreeMap<>(pools.byTrait);
    if (near != null) changed.keySet().removeAll(pools.takeOver(near));
    if (changed.keySet().stream().anyMatch(pools::isContrast)) pools.contrasts(changed);
    changed.forEach(
        (id, records) -> {
          Trait trait = evidence.traits().get(id);
          switch (trait.scale()) {
            case CONTRAST -> {}
            case QUANTITY, INTERVAL -> pools.quantities(trait, records);
            case LEVELS -> pools.levels(trait, records);
            case NAMES -> pools.names(trait, records);
          }
        });
    return pools;
  }

  private boolean isContrast(String trait) {
    return evidence.traits().get(trait).scale() == Trait.Scale.CONTRAST;
  }

  private List<String> trials() {
    return byTrait.keySet().stream().filter(this::isContrast).toList();
  }

  /** Takes over what does not differ; the traits of which that holds. */
  private Set<String> takeOver(TraitPools near) {
    Set<String> same = new TreeSet<>();
    for (String trait : byTrait.keySet()) if (sameAs(near, trait)) same.add(trait);
    List<String> trials = trials();
    if (same.containsAll(trials) && trials.equals(near.trials()))
      references.putAll(near.references);
    else same.removeAll(trials);
    near.estimates.forEach(
        (subject, byTrait) ->
            byTrait.forEach(
                (trait, estimate) -> {
                  if (same.contains(trait)) put(subject, trait, estimate);
                }));
    near.underAnyCrop.forEach(
        (stock, byTrait) ->
            byTrait.forEach(
                (trait, estimate) -> {
                  if (same.contains(trait))
                    underAnyCrop.computeIfAbsent(stock, s -> new HashMap<>()).put(trait, estimate);
                }));
    return same;
  }

  /** Whether all that a trait's pool is made of is the same: records, scale, sources, stocks. */
  private boolean sameAs(TraitPools near, String trait) {
    List<TraitRecord> records = Objects.requireNonNull(byTrait.get(trait));
    return records.equals(near.byTrait.get(trait))
        && evidence.traits().get(trait).equals(near.evidence.traits().get(trait))
        && records.stream().allMatch(record -> readAlike(record, near.evidence));
  }

  /**
   * Whether a record means the same in both: by its source, by its stock's parent, which takes part
   * in the pools of trial means, and by the variety that its days are counted from.
   */
  private boolean readAlike(TraitRecord record, Evidence other) {
    if (!Objects.equals(
        evidence.sources().get(record.source()), other.sources().get(record.source())))
      return false;
    if (record.subject() instanceof Subject.StockIn in
        && !evidence.plants().stock(in.stock()).equals(other.plants().stock(in.stock())))
      return false;
    String zero = record.context().relativeTo();
    Crop crop = record.subject().crop();
    return zero == null
        || evidence
            .plants()
            .resolveVariety(crop, zero)
            .equals(other.plants().resolveVariety(crop, zero));
  }

  /** Estimates by subject and trait id. */
  public Map<Subject, Map<String, Estimate>> estimates() {
    return estimates;
  }

  /**
   * Estimates of what the root does, by stock and trait, from the records under all crops together.
   */
  public Map<String, Map<String, Estimate>> underAnyCrop() {
    return underAnyCrop;
  }

  /** The crop's reference stock: met in most strata over all its trial traits. */
  public Map<Crop, String> references() {
    return references;
  }

  private void put(Subject subject, String trait, Estimate estimate) {
    estimates.computeIfAbsent(subject, s -> new HashMap<>()).put(trait, estimate);
  }

  private Estimate.Support support(List<TraitRecord> records) {
    List<String> ids = records.stream().map(TraitRecord::id).sorted().toList();
    int sources = (int) records.stream().map(TraitRecord::source).distinct().count();
    return new Estimate.Support(
        ids,
        sources,
        Grade.of(records, evidence.traits().get(records.get(0).trait()), evidence.sources()),
        Optional.empty());
  }

  // Trial means

  private void contrasts(Map<String, List<TraitRecord>> byTrait) {
    Map<Crop, Map<String, TrialPool>> pools = new EnumMap<>(Crop.class);
    byTrait.forEach(
        (id, records) -> {
          if (evidence.traits().get(id).scale() != Trait.Scale.CONTRAST) return;
          double usual = TrialPool.usualVariance(records);
          Map<Crop, List<TraitRecord>> byCrop = new EnumMap<>(Crop.class);
          for (TraitRecord record : records)
            byCrop.computeIfAbsent(record.subject().crop(), c -> new ArrayList<>()).add(record);
          byCrop.forEach(
              (crop, list) ->
                  pools
                      .computeIfAbsent(crop, c -> new TreeMap<>())
                      .put(id, TrialPool.of(evidence, list, usual)));
        });
    pools.forEach(
        (crop, traits) -> {
          Map<String, Integer> met = new TreeMap<>();
          traits
              .values()
              .forEach(pool -> pool.met().forEach((stock, n) -> met.merge(stock, n, Integer::sum)));
          if (met.isEmpty()) return;
          String reference =
              Collections.max(
                      met.entrySet(),
                      Map.Entry.<String, Integer>comparingByValue()
                          .thenComparing(Map.Entry.comparingByKey(Comparator.reverseOrder())))
                  .getKey();
          references.put(crop, reference);
        });
    // A trait's crops with the most means first: what they tell of the variance between sites is
    // carried over to crops with too few.
    Map<String, Double> carried = new TreeMap<>();
    pools.entrySet().stream()
        .sorted(
            Comparator.comparingInt(
                (Map.Entry<Crop, Map<String, TrialPool>> e) ->
                    -e.getValue().values().stream().mapToInt(p -> p.rows.size()).sum()))
        .forEach(
            entry ->
                entry
                    .getValue()
                    .forEach(
                        (trait, pool) -> {
                          String reference = references.get(entry.getKey());
                          if (reference != null)
                            ratios(entry.getKey(), trait, pool, reference, carried);
                        }));
  }

  private void ratios(
      Crop crop, String trait, TrialPool pool, String cropReference, Map<String, Double> carried) {
    if (pool.rows.isEmpty()) return;
    int wanted = pool.items.indexOf(cropReference);
    Map<String, Integer> met = pool.met();
    // A trait in which the crop's reference was not compared has the best-connected stock of its
    // own.
    int reference =
        wanted >= 0 && met.containsKey(cropReference)
            ? wanted
            : met.isEmpty()
                ? 0
                : pool.items.indexOf(
                    Collections.max(
                            met.entrySet(),
                            Map.Entry.<String, Integer>comparingByValue()
                                .thenComparing(Map.Entry.comparingByKey(Comparator.reverseOrder())))
                        .getKey());
    String referenceId = pool.items.get(reference);
    Network network = pool.network(pool.rows);
    int freedom = network.degreesOfFreedom();
    Network.Fit fit =
        freedom < 1 ? network.fit(0, 0) : network.fit(pool.tellsScionsApart(pool.rows));
    double tau2 = fit.tau2() + fit.omega2();
    if (freedom < FEW_DEGREES) {
      tau2 = Math.max(tau2, carried.getOrDefault(trait, USUAL_TAU2));
      fit = network.fit(tau2, 0);
    } else {
      carried.putIfAbsent(trait, tau2);
    }
    for (int k = 0; k < pool.items.size(); k++) {
      int item = k;
      List<TraitRecord> records =
          pool.rows.stream()
              .filter(row -> row.item() == item)
              .flatMap(row -> row.records().stream())
              .map(this::record)
              .toList();
      if (records.isEmpty()) continue;
      Estimate.Support support = support(records);
      Subject subject = new Subject.StockIn(crop, pool.items.get(k));
      int strata = met.getOrDefault(pool.items.get(k), 0);
      put(
          subject,
          trait,
          !network.joined(k, reference)
              ? new Estimate.NotComparable(referenceId, strata, support)
              : new Estimate.Ratio(
                  referenceId,
                  fit.contrast(k, reference),
                  fit.standardError(k, reference),
                  Math.sqrt(tau2),
                  strata,
                  freedom,
                  support));
    }
  }

  private @Nullable Map<String, TraitRecord> byId;

  private TraitRecord record(String id) {
    if (byId == null)
      byId = evidence.records().stream().collect(Collectors.toMap(TraitRecord::id, r -> r));
    return Objects.requireNonNull(byId.get(id));
  }

  // Quantities

  private void quantities(Trait trait, List<TraitRecord> records) {
    List<TraitRecord> relative =
        records.stream().filter(r -> r.context().relativeTo() != null).toList();
    if (!relative.isEmpty()) {
      RelativeDays.pool(evidence, trait, relative, this::support)
          .forEach((subject, estimate) -> put(subject, trait.id(), estimate));
      return;
    }
    Map<Crop, Map<Subject, List<TraitRecord>>> byCrop = new EnumMap<>(Crop.class);
    for (TraitRecord record : records) {
      byCrop
          .computeIfAbsent(record.subject().crop(), c -> new LinkedHashMap<>())
          .computeIfAbsent(record.subject(), s -> new ArrayList<>())
          .add(record);
    }
    Map<Subject, List<QuantityPool.Statement>> statements = new LinkedHashMap<>();
    byCrop
        .values()
        .forEach(
            subjects ->
                subjects.forEach(
                    (subject, list) ->
                        statements.put(subject, Statements.of(trait, list, evidence.sources()))));
    double overall = QuantityPool.between2(List.copyOf(statements.values()));
    byCrop.forEach(
        (crop, subjects) -> {
          List<List<QuantityPool.Statement>> own =
              subjects.keySet().stream().map(statements::get).toList();
          double between2 = between2(trait, own, overall);
          subjects.forEach(
              (subject, list) -> {
                QuantityPool.Pooled pooled =
                    QuantityPool.pool(Objects.requireNonNull(statements.get(subject)), between2);
                Estimate.Support support = support(list);
                put(
                    subject,
                    trait.id(),
                    trait.scale() == Trait.Scale.QUANTITY
                        ? new Estimate.Quantity(
                            trait.unit(),
                            pooled.mean(),
                            pooled.standardError(),
                            Math.sqrt(between2),
                            support)
                        : new Estimate.Interval(
                            trait.unit(),
                            pooled.mean(),
                            pooled.standardError(),
                            Math.sqrt(between2),
                            support));
              });
        });
  }

  /**
   * The crop's own variance between sources where ten statements or more bear on it, the trait's
   * over all crops else, a default where there is none.
   */
  private static double between2(
      Trait trait, List<List<QuantityPool.Statement>> own, double overall) {
    int spare = own.stream().mapToInt(list -> list.size() - 1).sum();
    double between2 = spare >= 10 ? QuantityPool.between2(own) : overall;
    return Double.isNaN(between2) ? Statements.defaultBetween2(trait) : between2;
  }

  // Levels and names

  private void levels(Trait trait, List<TraitRecord> records) {
    bySubject(records).forEach((subject, list) -> put(subject, trait.id(), levelsOf(trait, list)));
    if (!ROOT_TRAITS.contains(trait.id())) return;
    Map<String, List<TraitRecord>> byStock = new TreeMap<>();
    for (TraitRecord record : records) {
      if (record.subject() instanceof Subject.StockIn in)
        byStock.computeIfAbsent(in.stock(), s -> new ArrayList<>()).add(record);
    }
    byStock.forEach(
        (stock, list) ->
            underAnyCrop
                .computeIfAbsent(stock, s -> new HashMap<>())
                .put(trait.id(), levelsOf(trait, list)));
  }

  private Estimate.Levels levelsOf(Trait trait, List<TraitRecord> list) {
    double[] alpha =
        RatingPool.pool(
            trait.levels().size(),
            RatingPool.PRIOR / trait.levels().size(),
            RatingPool.NEIGHBOUR,
            Statements.voices(trait, list, evidence.sources()));
    return new Estimate.Levels(trait.levels(), alpha, support(list));
  }

  private void names(Trait trait, List<TraitRecord> records) {
    bySubject(records)
        .forEach(
            (subject, list) -> {
              Map<String, Double> votes = new TreeMap<>();
              Map<String, TreeSet<String>> voices = new TreeMap<>();
              for (TraitRecord record : list) {
                String name = ((Value.Name) record.value()).name();
                if (voices
                    .computeIfAbsent(name, n -> new TreeSet<>())
                    .add(Grade.voice(record, evidence.sources())))
                  votes.merge(name, Voices.weight(record.method()), Double::sum);
              }
              Map<String, Double> ordered = new LinkedHashMap<>();
              votes.entrySet().stream()
                  .sorted(
                      Map.Entry.<String, Double>comparingByValue()
                          .reversed()
                          .thenComparing(Map.Entry.comparingByKey()))
                  .forEach(e -> ordered.put(e.getKey(), e.getValue()));
              put(
                  subject,
                  trait.id(),
                  new Estimate.Named(Collections.unmodifiableMap(ordered), support(list)));
            });
  }

  private static Map<Subject, List<TraitRecord>> bySubject(List<TraitRecord> records) {
    Map<Subject, List<TraitRecord>> bySubject = new LinkedHashMap<>();
    for (TraitRecord record : records)
      bySubject.computeIfAbsent(record.subject(), s -> new ArrayList<>()).add(record);
    return bySubject;
  }
}
