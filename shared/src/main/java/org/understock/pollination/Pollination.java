package org.understock.pollination;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReferenceArray;
import org.understock.evidence.Grade;
import org.understock.evidence.TraitBook;
import org.understock.plant.Crop;
import org.understock.plant.Plants;
import org.understock.plant.Variety;
import org.understock.pollination.PairVerdict.Basis;
import org.understock.trait.Refusal;

/**
 * Pollination of one crop's varieties as of one revision: compiled once from the trait book, then
 * asked by many threads.
 *
 * <p>Receivers are the crop's varieties. Donors may be any varieties of the catalogue; those of
 * kinds that do not cross get {@link Verdict#NONE}.
 */
public final class Pollination {
  /*
   * All that a verdict needs is read from the book into a Flower per variety; a verdict is then two hash look-ups and at most a dozen string
   * comparisons. Partner lists cost one verdict per variety of the crop and a sort, so the first KEPT partners of a receiver are kept once
   * they have been asked for. Computing them twice gives the same list, so two threads may race for it.
   */
  private static final int KEPT = 12;

  private final Crop crop;
  private final Plants plants;
  private final CropRule rule;
  private final List<Flower> flowers;
  private final Map<String, Flower> byId = new HashMap<>();
  private final Map<String, Integer> places = new HashMap<>();
  private final double usualChance;
  private final AtomicReferenceArray<List<Partner>> kept;
  private final AtomicReferenceArray<Helpers> helpers;
  private final List<Flower> donors;
  private final List<PartnerNeed> needs;

  private Pollination(TraitBook book, Crop crop) {
    this.crop = crop;
    this.plants = book.plants();
    this.rule = CropRule.of(crop);
    List<Flower> own = new ArrayList<>();
    for (Variety variety : plants.varieties()) {
      if (!CropRule.canCross(crop, variety.crop())) continue;
      Flower flower = Flower.read(book, variety);
      byId.put(variety.id(), flower);
      if (variety.crop() == crop) {
        places.put(variety.id(), own.size());
        own.add(flower);
      }
    }
    this.flowers = List.copyOf(own);
    this.donors =
        byId.values().stream().sorted(Comparator.comparing(f -> f.variety().id())).toList();
    this.helpers = new AtomicReferenceArray<>(own.size());
    this.usualChance = rule.diploidSRule() ? UsualChance.of(flowers) : Double.NaN;
    this.needs = flowers.stream().map(flower -> Needs.of(flower, rule)).toList();
    this.kept = new AtomicReferenceArray<>(own.size());
  }

  /** Reads everything that pollination of a crop depends on. */
  public static Pollination of(TraitBook book, Crop crop) {
    return new Pollination(book, crop);
  }

  /** Whether pollen of one crop can fertilise another at all. */
  public static boolean canCross(Crop a, Crop b) {
    return CropRule.canCross(a, b);
  }

  public Crop crop() {
    return crop;
  }

  /**
   * What a variety's pollen does on a flower of this crop.
   *
   * @param pollenVarietyId id of the donor, of any crop
   * @param receiverId id of the receiver, a variety of this crop
   * @throws Refusal.Unknown when an id is not in the catalogue, or the receiver is not of this crop
   */
  public PairVerdict verdict(String pollenVarietyId, String receiverId) {
    Flower receiver = receiver(receiverId);
    Flower donor = byId.get(pollenVarietyId);
    if (donor == null) {
      Variety other =
          plants
              .variety(pollenVarietyId)
              .orElseThrow(() -> new Refusal.Unknown("variety", pollenVarietyId, List.of()));
      return new PairVerdict(Flower.bare(other), receiver, Verdict.NONE, Basis.SPECIES_WALL);
    }
    return judge(donor, receiver);
  }

  /** What a variety's pollen does on its own flowers. */
  public PairVerdict self(String varietyId) {
    Flower flower = receiver(varietyId);
    return judge(flower, flower);
  }

  /**
   * @throws Refusal.Unknown when the variety is not of this crop
   */
  public PollenNeed need(String varietyId) {
    return partnerNeed(varietyId).need();
  }

  /**
   * True when a planting of the variety should hold a partner; see {@link
   * PartnerNeed#partnerWanted()}.
   */
  public boolean needsPartner(String varietyId) {
    return partnerNeed(varietyId).partnerWanted();
  }

  /**
   * Whether a variety needs another one's pollen, how sure that is, and the ground.
   *
   * @throws Refusal.Unknown when the variety is not of this crop
   */
  public PartnerNeed partnerNeed(String varietyId) {
    receiver(varietyId);
    return needs.get(Objects.requireNonNull(places.get(varietyId)));
  }

  /**
   * The best pollen partners of a variety among the crop's own varieties: pollen that works and
   * blooms in time first, and among equals the better evidenced pairs and the better known
   * varieties. Pairs that cannot work are left out.
   *
   * @param limit most partners to return, 0 or more
   */
  public List<Partner> partners(String receiverId, int limit) {
    Flower receiver = receiver(receiverId);
    if (limit > KEPT) return rank(receiver, limit);
    int place = Objects.requireNonNull(places.get(receiverId));
    List<Partner> known = kept.get(place);
    if (known == null) {
      known = rank(receiver, KEPT);
      kept.set(place, known);
    }
    return known.size() <= limit ? known : known.subList(0, limit);
  }

  /** When a variety blooms, by what is recorded. */
  public BloomTime bloom(String varietyId) {
    return receiver(varietyId).bloomTime();
  }

  /**
   * The variety from whose full bloom the days of this crop count; empty when no days are known.
   */
  public Optional<Variety> bloomReference() {
    return flowers.stream()
        .filter(f -> f.bloomDay() != null && f.bloomDay().mean() == 0)
        .max(Comparator.comparingInt(Flower::weight))
        .map(Flower::variety);
  }

  /**
   * All varieties whose pollen may count for this crop, by id; the same list for crops that cross.
   */
  List<Flower> donors() {
    return donors;
  }

  /** Whether the variety's own pollen is enough: YES, NO or OPEN. */
  Allele.Known servesItself(String varietyId) {
    PartnerNeed need = partnerNeed(varietyId);
    if (need.need() == PollenNeed.UNKNOWN) return Allele.Known.OPEN;
    return need.need() == PollenNeed.SELF_FERTILE
            || need.need() == PollenNeed.PARTLY && !need.partnerWanted()
        ? Allele.Known.YES
        : Allele.Known.NO;
  }

  /**
   * Who of {@link #donors()} is sure to pollinate a variety. Kept once asked for, since whole sets
   * are searched for helpers again and again.
   */
  Helpers helpers(String receiverId) {
    Flower receiver = receiver(receiverId);
    int place = Objects.requireNonNull(places.get(receiverId));
    Helpers known = helpers.get(place);
    if (known == null) {
      BitSet sure = new BitSet();
      BitSet best = new BitSet();
      BitSet likely = new BitSet();
      for (int d = 0; d < donors.size(); d++) {
        if (donors.get(d) == receiver) continue;
        PairVerdict pair = judge(donors.get(d), receiver);
        sure.set(d, pair.isSure());
        likely.set(d, pair.isLikely());
        best.set(d, pair.verdict() == Verdict.FULL && pair.overlap() == Overlap.GOOD);
      }
      known = new Helpers(sure, best, likely);
      helpers.set(place, known);
    }
    return known;
  }

  /**
   * Donors by their place in {@link #donors()}; not to be changed.
   *
   * @param sure those whose pollen works at least in part while the receiver blooms
   * @param best those of them all of whose pollen works, and whose bloom overlaps well
   * @param likely the sure ones, and those of whose pair nothing is known but that it most likely
   *     works
   */
  record Helpers(BitSet sure, BitSet best, BitSet likely) {
    /** The same with what is likely taken for sure. */
    Helpers leniently() {
      return new Helpers(likely, best, likely);
    }
  }

  private List<Partner> rank(Flower receiver, int limit) {
    record Ranked(PairVerdict pair, int rank, Grade grade, Flower donor) {}
    List<Ranked> ranked = new ArrayList<>();
    for (Flower donor : flowers) {
      if (donor == receiver) continue;
      PairVerdict pair = judge(donor, receiver);
      if (pair.verdict() != Verdict.NONE)
        ranked.add(new Ranked(pair, rankOf(pair), pair.grade(), donor));
    }
    ranked.sort(
        Comparator.comparingInt(Ranked::rank)
            .thenComparing(r -> r.pair().verdict())
            .thenComparing(Ranked::grade)
            .thenComparingInt(r -> -r.donor().weight())
            .thenComparing(r -> r.donor().variety().id()));
    return ranked.stream()
        .limit(limit)
        .map(r -> Partner.of(r.donor().variety(), r.pair()))
        .toList();
  }

  /**
   * Lower is better: what the pollen can do plus when it comes. A bloom that misses weighs more
   * than anything else.
   */
  private static int rankOf(PairVerdict pair) {
    int pollen =
        switch (pair.verdict()) {
          case FULL -> 0;
          case PARTIAL -> 1;
          case UNKNOWN -> 2;
          case NONE -> 8;
        };
    int bloom =
        switch (pair.overlap()) {
          case GOOD -> 0;
          case SOME -> 1;
          case UNKNOWN -> 2;
          case POOR -> 5;
        };
    return pollen + bloom;
  }

  private PairVerdict judge(Flower donor, Flower receiver) {
    if (donor == receiver) return Needs.self(receiver, rule);
    if (!donor.hasGoodPollen())
      return new PairVerdict(donor, receiver, Verdict.NONE, Basis.STERILE_POLLEN);
    if (donor.variety().crop() != crop)
      return new PairVerdict(donor, receiver, Verdict.PARTIAL, Basis.KINDS_CROSS);
    boolean published = receiver.partners().contains(donor.variety().id());
    PairVerdict byAlleles = byAlleles(donor, receiver);
    if (!published || byAlleles.verdict().isUsable()) return byAlleles;
    return byAlleles.verdict() == Verdict.NONE
        ? new PairVerdict(donor, receiver, Verdict.UNKNOWN, Basis.PUBLISHED_AGAINST_ALLELES)
        : new PairVerdict(donor, receiver, Verdict.PARTIAL, Basis.PUBLISHED_PAIR);
  }

  private PairVerdict byAlleles(Flower donor, Flower receiver) {
    if (rule.anyPartner()) return new PairVerdict(donor, receiver, Verdict.FULL, Basis.ANY_PARTNER);
    boolean selfFertile =
        donor.isSelfFertileBeyondAlleles() || receiver.isSelfFertileBeyondAlleles();
    if (donor.sportOf().equals(receiver.sportOf()) && !selfFertile)
      return new PairVerdict(donor, receiver, Verdict.NONE, Basis.SPORT);
    if (donor.unreadable() != null || receiver.unreadable() != null)
      return unknown(donor, receiver, Basis.NOT_COMPARABLE);
    if (donor.genotypes().isEmpty() || receiver.genotypes().isEmpty()) {
      return new PairVerdict(donor, receiver, Verdict.UNKNOWN, Basis.NO_ALLELES, usualChance);
    }
    if (!rule.diploidSRule()) return unknown(donor, receiver, Basis.NOT_COMPARABLE);
    PairVerdict pair =
        donor.genotypes().size() == 1 && receiver.genotypes().size() == 1
            ? byOneGenotype(donor, receiver)
            : byDisputed(donor, receiver);
    return pair.verdict() == Verdict.NONE && selfFertile
        ? unknown(donor, receiver, Basis.BEYOND_ALLELES)
        : pair;
  }

  private static PairVerdict byOneGenotype(Flower donor, Flower receiver) {
    Genotype d = donor.genotypes().get(0);
    Genotype r = receiver.genotypes().get(0);
    SRule.Share share = SRule.share(d, r, receiver.chromosomeSets());
    boolean otherSeries =
        share.least() == 0
            && share.most() >= 1
            && d.complete()
            && r.complete()
            && !d.alleles().get(0).series().equals(r.alleles().get(0).series());
    Basis basis =
        share.isExact()
            ? Basis.ALLELES
            : otherSeries ? Basis.NOT_COMPARABLE : Basis.ALLELES_IN_PART;
    return new PairVerdict(donor, receiver, share.verdict(), basis);
  }

  /**
   * Where sources differ, a pair counts as usable only when every reading allows it, and then as
   * the weakest of them.
   */
  private static PairVerdict byDisputed(Flower donor, Flower receiver) {
    Verdict first = null;
    boolean agree = true;
    boolean usable = true;
    for (Genotype d : donor.genotypes()) {
      for (Genotype r : receiver.genotypes()) {
        Verdict verdict = SRule.share(d, r, receiver.chromosomeSets()).verdict();
        if (first == null) first = verdict;
        agree &= verdict == first;
        usable &= verdict.isUsable();
      }
    }
    Verdict verdict = agree ? first : usable ? Verdict.PARTIAL : Verdict.UNKNOWN;
    return new PairVerdict(
        donor, receiver, Objects.requireNonNull(verdict), Basis.ALLELES_DISPUTED);
  }

  private static PairVerdict unknown(Flower donor, Flower receiver, Basis basis) {
    return new PairVerdict(donor, receiver, Verdict.UNKNOWN, basis);
  }

  private Flower receiver(String id) {
    Flower flower = byId.get(id);
    if (flower == null || flower.variety().crop() != crop) {
      List<String> nearest =
          plants.findVarieties(id).stream()
              .filter(v -> v.crop() == crop)
              .map(Variety::id)
              .limit(3)
              .toList();
      throw new Refusal.Unknown("variety", id, nearest);
    }
    return flower;
  }
}
