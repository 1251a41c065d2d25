package org.understock.pollination;

import java.util.List;
import java.util.TreeSet;
import org.understock.pollination.Allele.Known;

/**
 * The rule of gametophytic self-incompatibility: a pollen grain carries one of the donor's
 * S-alleles, and a pistil stops it when it carries the same allele. Holds for apple, pear, sweet
 * cherry, apricot and Japanese plum (sources estonia-2021-cherry-s, guerra-plum-s,
 * egea-1996-apricot).
 *
 * <p>Alleles of the donor that the receiver lacks: both → all pollen works; one → half; none →
 * none. A triploid receiver shows three alleles and all of them stop pollen.
 */
final class SRule {
  /*
   * What is not known is carried as a bound, not guessed. Each donor allele is sure to work, sure to be stopped, or open. Among the open ones
   * we tell two sorts: "hard" ones stay open whatever the others do (an unknown donor allele, a mark whose side is not known); "soft" ones are
   * open only because a receiver allele is unknown or named in another series. One such receiver allele can equal one donor allele at most, so
   * of k different soft alleles against m such receiver alleles at least k - m work. This is why S1S2 pollen on an S3? pistil is at least half
   * good. A partly known genotype can therefore give PARTIAL ("at least half") but never FULL or NONE.
   */
  private SRule() {}

  /**
   * Share of a donor's pollen that can grow.
   *
   * @param least lower bound, 0 to 1
   * @param most upper bound, 0 to 1
   */
  record Share(double least, double most) {
    Verdict verdict() {
      if (least >= 1) return Verdict.FULL;
      if (most <= 0) return Verdict.NONE;
      return least > 0 ? Verdict.PARTIAL : Verdict.UNKNOWN;
    }

    boolean isExact() {
      return least == most;
    }
  }

  /**
   * @param receiverSets chromosome sets of the receiver, which tell how many alleles a pistil has
   */
  static Share share(Genotype donor, Genotype receiver, int receiverSets) {
    int unknownReceiver =
        receiver.complete()
            ? Math.max(0, receiverSets - Math.max(2, receiver.alleles().size()))
            : Math.max(1, receiverSets - receiver.alleles().size());
    int unknownDonor = donor.complete() ? 0 : Math.max(1, 2 - donor.alleles().size());
    int works = 0;
    int hard = unknownDonor;
    int soft = 0;
    TreeSet<String> softTokens = new TreeSet<>();
    int openReceiver = unknownReceiver;
    for (Allele r : receiver.alleles()) if (isForeign(r, donor.alleles())) openReceiver++;
    for (Allele d : donor.alleles()) {
      switch (fate(d, receiver, unknownReceiver > 0)) {
        case WORKS -> works++;
        case STOPPED -> {}
        case HARD -> hard++;
        case SOFT -> {
          soft++;
          softTokens.add(d.series() + d.token());
        }
      }
    }
    double grains = donor.alleles().size() + unknownDonor;
    double least = works + Math.max(0, softTokens.size() - openReceiver);
    return new Share(least / grains, (works + hard + soft) / grains);
  }

  private enum Fate {
    WORKS,
    STOPPED,
    HARD,
    SOFT
  }

  private static Fate fate(Allele d, Genotype receiver, boolean receiverHasUnknown) {
    if (d.pollenRecognised() == Known.NO) return Fate.WORKS;
    boolean hard = false;
    boolean soft = receiverHasUnknown;
    for (Allele r : receiver.alleles()) {
      if (r.pistilRejects() == Known.NO) continue;
      Known same = d.sameAs(r);
      if (same == Known.YES) {
        if (d.pollenRecognised() == Known.YES && r.pistilRejects() == Known.YES)
          return Fate.STOPPED;
        hard = true;
      } else if (same == Known.OPEN) {
        soft = true;
      }
    }
    return hard ? Fate.HARD : soft ? Fate.SOFT : Fate.WORKS;
  }

  private static boolean isForeign(Allele r, List<Allele> donor) {
    for (Allele d : donor)
      if (d.sameAs(r) == Known.OPEN && r.pistilRejects() != Known.NO) return true;
    return false;
  }
}
