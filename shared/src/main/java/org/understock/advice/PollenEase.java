package org.understock.advice;

import org.understock.evidence.Grade;
import org.understock.evidence.TraitBook;
import org.understock.plant.Crop;
import org.understock.pollination.PartnerNeed;

/**
 * How little trouble a variety is for its pollen, 0 to 1: bears alone best, needs two others worst.
 */
final class PollenEase {
  /** Satisfaction of a variety that needs another one's pollen. */
  private static final double NEEDS_ONE = 0.5;

  private PollenEase() {}

  /** The steps are a judgement. */
  static double of(TraitBook book, Crop crop, PartnerNeed need) {
    boolean better = setsBetterWithPartner(crop);
    return switch (need.need()) {
      case SELF_FERTILE -> told(book, need, better ? 0.7 : 1);
      case PARTLY -> told(book, need, better ? 0.6 : 0.75);
      case NEEDS_ONE -> NEEDS_ONE;
      case NEEDS_TWO -> 0.2;
      case UNKNOWN -> 1 - 0.5 * need.chanceNeeded();
    };
  }

  /**
   * Even self-fruitful apples set more, and more regularly, with a partner (wsu-pollination,
   * niab-apple-pollinators); pears likewise (wsu-pear-pollination).
   */
  private static boolean setsBetterWithPartner(Crop crop) {
    return crop == Crop.APPLE || crop == Crop.EUROPEAN_PEAR || crop == Crop.ASIAN_PEAR;
  }

  /**
   * A good word is believed as far as it is told: two thirds of the way for one voice, three
   * quarters for two (rule of succession).
   */
  private static double told(TraitBook book, PartnerNeed need, double satisfaction) {
    double voices =
        need.records().stream()
            .flatMap(id -> book.record(id).stream())
            .map(record -> Grade.voice(record, book.evidence().sources()))
            .distinct()
            .count();
    return NEEDS_ONE + (satisfaction - NEEDS_ONE) * (voices + 1) / (voices + 2);
  }
}
