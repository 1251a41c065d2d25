package org.understock.pollination;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.understock.evidence.Context;
import org.understock.evidence.Estimate;
import org.understock.evidence.Evidence;
import org.understock.evidence.Grade;
import org.understock.evidence.Method;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.evidence.TraitRecord;
import org.understock.plant.Crop;
import org.understock.plant.Names;
import org.understock.plant.Plants;
import org.understock.plant.Variety;
import org.understock.trait.Traits;
import org.understock.trait.Value;

/**
 * A trait book of a few varieties whose estimates are set by hand, for tests of the pollination
 * rules.
 */
final class Orchard implements TraitBook {
  private static final List<String> SELF = List.of("no", "partly", "yes");
  private static final List<String> FERTILE = List.of("no", "yes");
  private static final List<String> BLOOM =
      List.of("early", "early-mid", "mid", "mid-late", "late");

  private final List<Variety> varieties = new ArrayList<>();
  private final Map<Subject, Map<String, Estimate>> estimates = new LinkedHashMap<>();
  private final List<TraitRecord> records = new ArrayList<>();
  private Crop crop = Crop.APPLE;
  private String id = "";

  /** Adds a variety; what follows is said of it. */
  Orchard with(Crop crop, String name) {
    this.crop = crop;
    this.id = Names.slug(name);
    varieties.add(new Variety(id, crop, name, List.of()));
    estimates.put(subject(), new LinkedHashMap<>());
    return this;
  }

  /** Genotypes with one vote each. */
  Orchard alleles(String... genotypes) {
    Map<String, Double> votes = new LinkedHashMap<>();
    for (String genotype : genotypes) votes.merge(genotype, 1.0, Double::sum);
    return set(
        "s-alleles", new Estimate.Named(votes, support("s-alleles")), new Value.Name(genotypes[0]));
  }

  Orchard ploidy(int sets) {
    return set(
        "ploidy",
        new Estimate.Named(Map.of("" + sets, 1.0), support("ploidy")),
        new Value.Name("" + sets));
  }

  Orchard selfFertile(String level) {
    return level("self-fertile", SELF, level);
  }

  Orchard pollenFertile(String level) {
    return level("pollen-fertile", FERTILE, level);
  }

  Orchard bloomGroup(String level) {
    return level("bloom-group", BLOOM, level);
  }

  Orchard bloomDay(double day, double se) {
    return set(
        "bloom-day",
        new Estimate.Interval("d", day, se, 0, support("bloom-day")),
        new Value.Quantity(day));
  }

  Orchard sportOf(String parent) {
    return set(
        "sport-of",
        new Estimate.Named(Map.of(parent, 1.0), support("sport-of")),
        new Value.Name(parent));
  }

  Orchard pollinatedBy(String names) {
    return set(
        "pollinated-by",
        new Estimate.Named(Map.of(names, 1.0), support("pollinated-by")),
        new Value.Name(names));
  }

  /** The same varieties and estimates, entered in another order. */
  Orchard shuffled(long seed) {
    Orchard other = new Orchard();
    other.varieties.addAll(varieties);
    Collections.shuffle(other.varieties, new Random(seed));
    other.estimates.putAll(estimates);
    other.records.addAll(records);
    return other;
  }

  private Orchard level(String trait, List<String> levels, String level) {
    double[] alpha = new double[levels.size()];
    java.util.Arrays.fill(alpha, 1.0 / levels.size());
    alpha[levels.indexOf(level)] += 1;
    return set(trait, new Estimate.Levels(levels, alpha, support(trait)), new Value.Level(level));
  }

  private Orchard set(String trait, Estimate estimate, Value value) {
    estimates.get(subject()).put(trait, estimate);
    records.add(
        new TraitRecord(
            recordId(trait),
            subject(),
            trait,
            value,
            Method.EXPERT_RATING,
            "test",
            "table",
            Context.NONE,
            ""));
    return this;
  }

  private Estimate.Support support(String trait) {
    return new Estimate.Support(List.of(recordId(trait)), 1, Grade.B, Optional.empty());
  }

  private String recordId(String trait) {
    return id + "/" + trait;
  }

  private Subject subject() {
    return new Subject.OfVariety(crop, id);
  }

  @Override
  public long revision() {
    return 1;
  }

  @Override
  public Evidence evidence() {
    return new Evidence(new Traits(List.of()), new Plants(List.of(), varieties), Map.of(), records);
  }

  @Override
  public Optional<Estimate> estimate(Subject subject, String trait) {
    return Optional.ofNullable(estimates.getOrDefault(subject, Map.of()).get(trait));
  }

  @Override
  public List<TraitRecord> records(Subject subject) {
    return records.stream().filter(r -> r.subject().equals(subject)).toList();
  }

  @Override
  public Optional<TraitRecord> record(String id) {
    return records.stream().filter(r -> r.id().equals(id)).findFirst();
  }
}
