package org.understock.pollination;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.understock.evidence.Grade;
import org.understock.wording.Words;

/**
 * What one variety's pollen does on another variety's flower, in that direction, and why. The text
 * and the records are put together only when they are asked for, so that a thousand pairs can be
 * judged in a millisecond.
 */
public final class PairVerdict {
  /** What the verdict rests on. */
  public enum Basis {
    /** A record about the variety's self-fertility. */
    SELF_FERTILITY,
    /** The variety's own alleles (pollen on itself). */
    SELF_ALLELES,
    /** What holds for the crop's varieties in general (pollen on itself). */
    SELF_CROP_RULE,
    /** The two belong to kinds that do not cross. */
    SPECIES_WALL,
    /** The donor's pollen is sterile or nearly so. */
    STERILE_POLLEN,
    /** One is a sport of the other, or both of one variety. */
    SPORT,
    /** Both genotypes, by the rule of gametophytic self-incompatibility. */
    ALLELES,
    /** Genotypes that are known in part, or that no one rule decides. */
    ALLELES_IN_PART,
    /** Sources give different genotypes. */
    ALLELES_DISPUTED,
    /** The genotypes are named in different series, or are not read by the diploid rule. */
    NOT_COMPARABLE,
    /**
     * The alleles say no, but one of the two is self-fertile for a reason that its alleles do not
     * show.
     */
    BEYOND_ALLELES,
    /** A source names the donor as a partner. */
    PUBLISHED_PAIR,
    /** A source names the donor as a partner although the alleles say no. */
    PUBLISHED_AGAINST_ALLELES,
    /** A source says that the two kinds cross. */
    KINDS_CROSS,
    /** The crop knows no incompatibility between varieties. */
    ANY_PARTNER,
    /** At least one genotype is not known. */
    NO_ALLELES
  }

  private static final double LIKELY = 0.8;

  private final Flower donor;
  private final Flower receiver;
  private final Verdict verdict;
  private final Basis basis;
  private final Overlap overlap;
  private final double chanceUsable;

  PairVerdict(Flower donor, Flower receiver, Verdict verdict, Basis basis) {
    this(
        donor,
        receiver,
        verdict,
        basis,
        verdict.isUsable() ? 1 : verdict == Verdict.NONE ? 0 : Double.NaN);
  }

  PairVerdict(Flower donor, Flower receiver, Verdict verdict, Basis basis, double chanceUsable) {
    this.chanceUsable = chanceUsable;
    this.donor = donor;
    this.receiver = receiver;
    this.verdict = verdict;
    this.basis = basis;
    this.overlap = Bloom.overlap(donor, receiver);
  }

  /** Id of the variety that gives pollen. */
  public String pollen() {
    return donor.variety().id();
  }

  /** Id of the variety that receives it. */
  public String receiver() {
    return receiver.variety().id();
  }

  public Verdict verdict() {
    return verdict;
  }

  public Basis basis() {
    return basis;
  }

  public Overlap overlap() {
    return overlap;
  }

  /**
   * Chance that at least part of the pollen works, by the verdict alone: 1 or 0 where there is one,
   * and for a pair without known alleles the share of usable pairs among the crop's varieties whose
   * alleles are known. NaN where nothing can be said.
   */
  public double chanceUsable() {
    return chanceUsable;
  }

  /**
   * Chance that the two share enough days of bloom ({@link Bloom#chanceOfOverlap}); NaN where days
   * are not known for both.
   */
  public double chanceOfOverlap() {
    return Bloom.chanceOfOverlap(donor, receiver);
  }

  /**
   * True when the pollen is known to work at least in part, and the blooms are known to meet. Where
   * any other variety will do, that is published of the crop's varieties as they bloom, so only
   * blooms known to miss each other speak against it.
   */
  public boolean isSure() {
    return verdict.isUsable()
        && (overlapKnown() || basis == Basis.ANY_PARTNER && overlap == Overlap.UNKNOWN);
  }

  /**
   * True when it is sure, or when the blooms are known to meet and four of five such pairs work at
   * least in part (the share is a judgement).
   */
  public boolean isLikely() {
    return isSure() || isOpen() && overlapKnown() && chanceUsable >= LIKELY;
  }

  private boolean overlapKnown() {
    return overlap == Overlap.GOOD || overlap == Overlap.SOME;
  }

  /**
   * True when the pollen may do, but the evidence does not say whether it works or whether it comes
   * in time.
   */
  public boolean isOpen() {
    return verdict != Verdict.NONE && overlap != Overlap.POOR && !isSure();
  }

  /** The verdict and its reason, one or two sentences. */
  public String text(Words words) {
    return new Reasons(words, this, donor, receiver).text();
  }

  /** Ids of the records behind the verdict and the overlap, without repeats. */
  public List<String> records() {
    Set<String> ids = new LinkedHashSet<>();
    for (Flower.Backing backing : backings()) ids.addAll(backing.records());
    if (donor != receiver) {
      ids.addAll(donor.bloomBacking().records());
      ids.addAll(receiver.bloomBacking().records());
    }
    return List.copyOf(ids);
  }

  /** The weakest grade among the records behind the verdict; D when it rests on a rule alone. */
  public Grade grade() {
    Grade worst = Grade.A;
    List<Flower.Backing> backings = backings();
    for (Flower.Backing backing : backings)
      if (backing.grade().compareTo(worst) > 0) worst = backing.grade();
    return backings.isEmpty() ? Grade.D : worst;
  }

  private List<Flower.Backing> backings() {
    List<Flower.Backing> backings = new ArrayList<>();
    switch (basis) {
      case SELF_FERTILITY ->
          backings.add(Flower.Backing.of(Objects.requireNonNull(receiver.self()).support()));
      case SELF_ALLELES -> backings.add(receiver.allelesBacking());
      case STERILE_POLLEN -> backings.add(donor.pollenBacking());
      case ALLELES, ALLELES_IN_PART, ALLELES_DISPUTED, NOT_COMPARABLE -> addAlleles(backings);
      case BEYOND_ALLELES -> {
        addAlleles(backings);
        for (Flower flower : List.of(donor, receiver))
          if (flower.self() != null) backings.add(Flower.Backing.of(flower.self().support()));
      }
      case PUBLISHED_PAIR -> backings.add(receiver.partnersBacking());
      case PUBLISHED_AGAINST_ALLELES -> {
        addAlleles(backings);
        backings.add(receiver.partnersBacking());
      }
      case NO_ALLELES -> {
        if (!donor.genotypes().isEmpty()) backings.add(donor.allelesBacking());
        if (!receiver.genotypes().isEmpty()) backings.add(receiver.allelesBacking());
      }
      case SELF_CROP_RULE, SPECIES_WALL, SPORT, KINDS_CROSS, ANY_PARTNER -> {}
    }
    return backings;
  }

  private void addAlleles(List<Flower.Backing> backings) {
    backings.add(donor.allelesBacking());
    if (receiver != donor) backings.add(receiver.allelesBacking());
  }

  @Override
  public String toString() {
    return pollen()
        + " on "
        + receiver()
        + ": "
        + verdict
        + " ("
        + basis
        + "), bloom overlap "
        + overlap;
  }
}
