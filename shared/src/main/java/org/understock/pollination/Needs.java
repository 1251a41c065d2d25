package org.understock.pollination;

import java.util.List;
import org.understock.evidence.Grade;
import org.understock.pollination.PairVerdict.Basis;
import org.understock.wording.Sentence;

/**
 * What a variety's own pollen does for it. A record about its self-fertility is read first, then
 * its alleles, then what holds for the crop: self-fertility is not always visible in the alleles
 * (apple Megumi, source pcr-rflp-13-apple; sweet cherry Cristobalina; apricot Katy, source
 * munoz-sanz-2017-apricot).
 */
final class Needs {
  /**
   * Chance that a variety with ordinary alleles is self-fertile all the same: 14 of 1484 entries of
   * the 2020 sweet cherry list break the rule "self-fertile when marked, else not" (source
   * schuster-2020-cherry-s). Used for the other crops too, for want of counts.
   */
  private static final double BREAKS_ALLELE_RULE = 14 / 1484.0;

  private Needs() {}

  static PairVerdict self(Flower flower, CropRule rule) {
    boolean barren = !flower.hasGoodPollen();
    if (flower.self() != null) {
      Verdict verdict =
          switch (Flower.best(flower.self())) {
            case "yes" -> Verdict.FULL;
            case "partly" -> barren ? Verdict.NONE : Verdict.PARTIAL;
            default -> Verdict.NONE;
          };
      return new PairVerdict(
          flower,
          flower,
          verdict,
          barren && verdict == Verdict.NONE ? Basis.STERILE_POLLEN : Basis.SELF_FERTILITY);
    }
    if (barren) return new PairVerdict(flower, flower, Verdict.NONE, Basis.STERILE_POLLEN);
    Verdict byAlleles = byAlleles(flower, rule);
    if (byAlleles != Verdict.UNKNOWN)
      return new PairVerdict(flower, flower, byAlleles, Basis.SELF_ALLELES);
    Verdict byCrop =
        switch (rule.need()) {
          case SELF_FERTILE -> Verdict.FULL;
          case PARTLY -> Verdict.PARTIAL;
          case NEEDS_ONE, NEEDS_TWO -> Verdict.NONE;
          case UNKNOWN -> Verdict.UNKNOWN;
        };
    return new PairVerdict(flower, flower, byCrop, Basis.SELF_CROP_RULE);
  }

  static PartnerNeed of(Flower flower, CropRule rule) {
    PairVerdict self = self(flower, rule);
    PollenNeed need =
        switch (self.verdict()) {
          case FULL -> PollenNeed.SELF_FERTILE;
          case PARTIAL -> PollenNeed.PARTLY;
          case NONE -> needsThird(flower, rule) ? PollenNeed.NEEDS_TWO : PollenNeed.NEEDS_ONE;
          case UNKNOWN -> PollenNeed.UNKNOWN;
        };
    double chance = chanceNeeded(flower, rule, self);
    boolean wanted =
        need == PollenNeed.NEEDS_ONE
            || need == PollenNeed.NEEDS_TWO
            || need == PollenNeed.PARTLY && rule.need() == PollenNeed.NEEDS_ONE;
    boolean byCrop = self.basis() == Basis.SELF_CROP_RULE;
    return new PartnerNeed(
        need,
        chance,
        wanted || need == PollenNeed.UNKNOWN,
        byCrop ? Grade.D : self.grade(),
        Sentence.kept(text(rule, self, need)),
        self.records(),
        byCrop ? rule.sources() : List.of());
  }

  /**
   * A variety without good pollen leaves its partner unserved, unless partners of this crop serve
   * themselves.
   */
  private static boolean needsThird(Flower flower, CropRule rule) {
    return !flower.hasGoodPollen() && rule.need() == PollenNeed.NEEDS_ONE;
  }

  private static double chanceNeeded(Flower flower, CropRule rule, PairVerdict self) {
    return switch (self.basis()) {
      case SELF_FERTILITY -> flower.selfChance("no");
      case SELF_ALLELES ->
          self.verdict() == Verdict.NONE ? 1 - BREAKS_ALLELE_RULE : BREAKS_ALLELE_RULE;
      case STERILE_POLLEN -> Math.max(1 - BREAKS_ALLELE_RULE, rule.chancePartnerNeeded());
      default -> rule.chancePartnerNeeded();
    };
  }

  /**
   * By the alleles alone, if every genotype that the sources leave open says the same: a
   * pollen-part mutation makes a variety self-fertile; two ordinary, known alleles make it
   * self-sterile.
   */
  private static Verdict byAlleles(Flower flower, CropRule rule) {
    if (!rule.diploidSRule() || flower.chromosomeSets() != 2) return Verdict.UNKNOWN;
    Verdict verdict = Verdict.UNKNOWN;
    for (Genotype genotype : flower.genotypes()) {
      Verdict reading =
          genotype.hasUniversalPollen()
              ? Verdict.FULL
              : SRule.share(genotype, genotype, 2).verdict();
      if (verdict != Verdict.UNKNOWN && reading != verdict) return Verdict.UNKNOWN;
      verdict = reading;
    }
    return verdict;
  }

  private static Sentence text(CropRule rule, PairVerdict self, PollenNeed need) {
    if (need == PollenNeed.NEEDS_TWO)
      return words -> self.text(words) + " " + words.say("pollination.needs-two");
    if (self.basis() != Basis.SELF_CROP_RULE) return self::text;
    return words ->
        self.text(words)
            + " "
            + words.say(
                "pollination.chance-needed",
                "chance",
                Receipts.percent(rule.chancePartnerNeeded()),
                "memory",
                rule.sources().contains("memory"));
  }
}
