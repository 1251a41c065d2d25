package org.understock.pollination;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.Estimate;
import org.understock.evidence.Grade;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.evidence.TraitRecord;
import org.understock.plant.Variety;
import org.understock.trait.Refusal;
import org.understock.trait.Value;

/**
 * Everything about one variety that its pollination depends on, read once from the trait book.
 *
 * @param genotypes the S-genotypes that the evidence leaves open, best supported first: one when it
 *     agrees, more when it is split
 * @param unreadable an S-genotype that could not be read, or null
 * @param chromosomeSets 2, 3, …; 2 when nothing is known
 * @param pollen whether its pollen is any good
 * @param self estimate of self-fertility, or null
 * @param bloomDay days on the crop's common scale, or null
 * @param bloomClass index of the most probable bloom class, or -1
 * @param partners ids of varieties that a source names as its pollen partners
 * @param sportOf id of the variety of which it is a sport, or its own id
 * @param weight number of records about the variety, for "better known first"
 */
record Flower(
    Variety variety,
    List<Genotype> genotypes,
    Backing allelesBacking,
    @Nullable String unreadable,
    int chromosomeSets,
    PollenState pollen,
    Backing pollenBacking,
    Estimate.@Nullable Levels self,
    Estimate.@Nullable Interval bloomDay,
    int bloomClass,
    Backing bloomBacking,
    Set<String> partners,
    Backing partnersBacking,
    String sportOf,
    int weight) {

  /** What is known of a variety's pollen. */
  enum PollenState {
    /** Nothing speaks against it. */
    GOOD,
    /** Held to be sterile or nearly so. */
    STERILE,
    /** Held to be sterile or nearly so because the variety has three chromosome sets. */
    TRIPLOID
  }

  /** Records and grade behind one part. */
  record Backing(List<String> records, Grade grade) {
    static final Backing NONE = new Backing(List.of(), Grade.D);

    /** These records first, then the other's; the grade stays. */
    Backing with(Backing other) {
      List<String> all = new ArrayList<>(records);
      all.addAll(other.records);
      return new Backing(List.copyOf(all), grade);
    }

    static Backing of(Estimate.Support support) {
      return new Backing(support.records(), support.grade());
    }
  }

  /**
   * Share of the votes from which one genotype stands alone: three of four, as with the sweet
   * cherry Bing (varieties rules: S3S4, one dissent).
   */
  private static final double STANDS_ALONE = 0.7;

  static Flower read(TraitBook book, Variety variety) {
    Subject subject = new Subject.OfVariety(variety.crop(), variety.id());
    Optional<Estimate.Named> alleles = named(book, subject, "s-alleles");
    List<Genotype> genotypes = new ArrayList<>();
    String unreadable = alleles.map(a -> genotypes(variety, a, genotypes)).orElse(null);
    Optional<Estimate.Named> ploidy = named(book, subject, "ploidy");
    int sets = ploidy.map(p -> chromosomeSets(variety, p.best())).orElse(2);
    Optional<Estimate.Levels> fertile = levels(book, subject, "pollen-fertile");
    PollenState pollen =
        fertile.isPresent()
            ? best(fertile.get()).equals("no")
                ? (sets % 2 == 1 ? PollenState.TRIPLOID : PollenState.STERILE)
                : PollenState.GOOD
            : sets % 2 == 1 ? PollenState.TRIPLOID : PollenState.GOOD;
    Backing pollenBacking =
        fertile
            .map(f -> Backing.of(f.support()))
            .or(() -> ploidy.map(p -> Backing.of(p.support())))
            .orElse(Backing.NONE);
    Optional<Estimate.Interval> day = interval(book, subject, "bloom-day");
    Optional<Estimate.Levels> group = levels(book, subject, "bloom-group");
    Backing bloom = Backing.NONE;
    if (group.isPresent()) bloom = Backing.of(group.get().support());
    if (day.isPresent()) bloom = Backing.of(day.get().support()).with(bloom);
    List<TraitRecord> records = book.records(subject);
    Set<String> partners = new LinkedHashSet<>();
    Backing partnersBacking = partners(book, variety, records, partners);
    String sportOf =
        named(book, subject, "sport-of")
            .flatMap(s -> book.plants().resolveVariety(variety.crop(), s.best()))
            .map(Variety::id)
            .orElse(variety.id());
    return new Flower(
        variety,
        List.copyOf(genotypes),
        alleles.map(a -> Backing.of(a.support())).orElse(Backing.NONE),
        unreadable,
        sets,
        pollen,
        pollenBacking,
        levels(book, subject, "self-fertile").orElse(null),
        day.orElse(null),
        group.map(Flower::bestIndex).orElse(-1),
        bloom,
        Set.copyOf(partners),
        partnersBacking,
        sportOf,
        records.size());
  }

  /**
   * A flower of which nothing is known but its name: a variety of a crop that cannot cross anyway.
   */
  static Flower bare(Variety variety) {
    return new Flower(
        variety,
        List.of(),
        Backing.NONE,
        null,
        2,
        PollenState.GOOD,
        Backing.NONE,
        null,
        null,
        -1,
        Backing.NONE,
        Set.of(),
        Backing.NONE,
        variety.id(),
        0);
  }

  BloomTime bloomTime() {
    return new BloomTime(
        bloomDay == null ? null : bloomDay.mean(),
        bloomDay == null ? null : bloomDay.predictionSd(),
        bloomClass < 0 ? null : BloomTime.GROUPS.get(bloomClass),
        bloomBacking.records());
  }

  boolean hasGoodPollen() {
    return pollen == PollenState.GOOD;
  }

  /**
   * Probability of a level of self-fertility ({@code no}, {@code partly}, {@code yes}); needs
   * {@link #self()}.
   */
  double selfChance(String level) {
    int at = Objects.requireNonNull(self).levels().indexOf(level);
    return at < 0 ? 0 : self.probabilities()[at];
  }

  /**
   * True when records call the variety self-fertile although no allele it is known to carry would
   * make it so.
   */
  boolean isSelfFertileBeyondAlleles() {
    return self != null
        && best(self).equals("yes")
        && genotypes.stream().noneMatch(Genotype::hasUniversalPollen);
  }

  static String best(Estimate.Levels levels) {
    return levels.levels().get(bestIndex(levels));
  }

  private static int bestIndex(Estimate.Levels levels) {
    double[] alpha = levels.alpha();
    int best = 0;
    for (int k = 1; k < alpha.length; k++) if (alpha[k] > alpha[best]) best = k;
    return best;
  }

  /** Fills the genotypes that stay open; returns the text that could not be read, or null. */
  private static @Nullable String genotypes(
      Variety variety, Estimate.Named named, List<Genotype> into) {
    Map<String, Genotype> byLabel = new LinkedHashMap<>();
    Map<String, Double> votes = new LinkedHashMap<>();
    double total = 0;
    for (Map.Entry<String, Double> vote : named.votes().entrySet()) {
      Genotype genotype;
      try {
        genotype = Genotype.parse(variety.crop(), vote.getKey());
      } catch (Refusal.Conflict unreadable) {
        return vote.getKey();
      }
      byLabel.putIfAbsent(genotype.label(), genotype);
      votes.merge(genotype.label(), vote.getValue(), Double::sum);
      total += vote.getValue();
    }
    List<Genotype> open = new ArrayList<>(byLabel.values());
    for (Genotype partial : byLabel.values()) {
      for (Genotype whole : byLabel.values()) {
        if (!partial.isCoveredBy(whole)) continue;
        votes.merge(whole.label(), votes.get(partial.label()), Double::sum);
        open.remove(partial);
        break;
      }
    }
    open.sort(
        java.util.Comparator.comparing(
                (Genotype g) -> -Objects.requireNonNull(votes.get(g.label())))
            .thenComparing(Genotype::label));
    if (!open.isEmpty()
        && Objects.requireNonNull(votes.get(open.get(0).label())) >= STANDS_ALONE * total)
      into.add(open.get(0));
    else into.addAll(open);
    return null;
  }

  private static int chromosomeSets(Variety variety, String text) {
    if (!text.matches("[1-9]"))
      throw new Refusal.OutOfRange(
          "ploidy", text + " (" + variety.id() + ")", "a number of chromosome sets from 1 to 9");
    return text.charAt(0) - '0';
  }

  private static Backing partners(
      TraitBook book, Variety variety, List<TraitRecord> records, Set<String> into) {
    List<String> ids = new ArrayList<>();
    for (TraitRecord record : records) {
      if (!record.trait().equals("pollinated-by") || !(record.value() instanceof Value.Name name))
        continue;
      ids.add(record.id());
      for (String partner : name.name().split("[,;]"))
        book.plants()
            .resolveVariety(variety.crop(), partner.strip())
            .ifPresent(v -> into.add(v.id()));
    }
    return ids.isEmpty() ? Backing.NONE : new Backing(List.copyOf(ids), Grade.C);
  }

  private static Optional<Estimate.Named> named(TraitBook book, Subject subject, String trait) {
    return book.estimate(subject, trait).map(e -> (Estimate.Named) e);
  }

  private static Optional<Estimate.Levels> levels(TraitBook book, Subject subject, String trait) {
    return book.estimate(subject, trait).map(e -> (Estimate.Levels) e);
  }

  private static Optional<Estimate.Interval> interval(
      TraitBook book, Subject subject, String trait) {
    return book.estimate(subject, trait).map(e -> (Estimate.Interval) e);
  }
}
