package org.understock.planting;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import org.understock.plant.Crop;
import org.understock.pollination.PairVerdict;
import org.understock.pollination.PartnerNeed;
import org.understock.pollination.PollenNeed;
import org.understock.pollination.Pollination;

/**
 * Which of the plan's pairings pollinate which, bloom included: those that are sure or likely to,
 * and only where there are none of these, those that may.
 *
 * <p>A variety whose own pollen is of no use (a triploid) needs two others: one that serves it, and
 * a second that serves it too or serves that one.
 */
final class Pollen {
  /** Others that each pairing needs: 0, 1 or 2. */
  final int[] needed;

  /** By receiver and donor: whether the donor serves. */
  final boolean[][] serves;

  /** By receiver and donor: whether the donor counts as the second of two. */
  final boolean[][] second;

  /** Receivers whose donors are only not known to fail. */
  final boolean[] unsure;

  /**
   * Variety of each pairing, counted from 0: trees of one variety are no partners whatever they
   * stand on.
   */
  final int[] variety;

  private Pollen(int kinds) {
    needed = new int[kinds];
    serves = new boolean[kinds][kinds];
    second = new boolean[kinds][kinds];
    unsure = new boolean[kinds];
    variety = new int[kinds];
  }

  static Pollen of(List<Planned> kinds, Function<Crop, Pollination> pollinations) {
    int n = kinds.size();
    Pollen pollen = new Pollen(n);
    List<String> varieties = new ArrayList<>();
    for (int r = 0; r < n; r++) {
      String id = kinds.get(r).pairing().variety().id();
      if (!varieties.contains(id)) varieties.add(id);
      pollen.variety[r] = varieties.indexOf(id);
    }
    for (int r = 0; r < n; r++) {
      Crop crop = kinds.get(r).pairing().crop();
      Pollination pollination = pollinations.apply(crop);
      PartnerNeed need = pollination.partnerNeed(kinds.get(r).pairing().variety().id());
      pollen.needed[r] = need.need() == PollenNeed.NEEDS_TWO ? 2 : need.partnerWanted() ? 1 : 0;
      boolean[] maybe = new boolean[n];
      boolean any = false;
      for (int d = 0; d < n; d++) {
        if (pollen.variety[d] == pollen.variety[r]) continue;
        PairVerdict pair =
            pollination.verdict(
                kinds.get(d).pairing().variety().id(), kinds.get(r).pairing().variety().id());
        pollen.serves[r][d] = pair.isLikely();
        maybe[d] = pair.isOpen();
        any |= pair.isLikely();
      }
      if (!any) {
        pollen.serves[r] = maybe;
        for (boolean m : maybe) pollen.unsure[r] |= m;
      }
    }
    pollen.seconds();
    return pollen;
  }

  private void seconds() {
    int n = needed.length;
    for (int r = 0; r < n; r++) {
      for (int d = 0; d < n; d++) {
        boolean counts = serves[r][d];
        for (int first = 0; first < n && !counts; first++)
          counts = serves[r][first] && serves[first][d] && variety[d] != variety[r];
        second[r][d] = counts;
      }
    }
  }
}
