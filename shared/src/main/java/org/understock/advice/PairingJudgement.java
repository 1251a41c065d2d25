package org.understock.advice;

import org.understock.site.Goal;

/**
 * The value functions of the criteria that belong to the tree as a whole: size, early crop, yield, length of life. Each takes natural logs of the
 * quantity (metres, years, kg/m²) and answers 0 to 1. What the grower did not say is taken from the purpose, with wider ramps.
 */
final class PairingJudgement {
  private final Ramp heightFits;
  private final Ramp heightUsesSpace;
  private final Ramp heightCanBeHeld;
  private final Ramp spreadFits;
  private final Ramp spreadPossible;
  private final boolean spaceGiven;
  private final boolean heightGiven;
  private final Ramp cropInTime;
  private final Ramp cropEarly;
  private final Ramp yield;
  private final Ramp life;

  /** @param usualYieldKgPerM2 median over the crop's stocks, the middle of the yield scale */
  PairingJudgement(Goal goal, double usualYieldKgPerM2) {
    heightGiven = goal.maxHeightM() != null;
    spaceGiven = goal.widthM() != null;
    double reach = goal.maxHeightM() != null ? goal.maxHeightM() : usualReachM(goal);
    heightFits = heightGiven ? Ramp.between(1.6 * reach, reach) : Ramp.between(2.4 * reach, reach);
    heightUsesSpace = Ramp.between(0.3 * reach, 0.7 * reach);
    heightCanBeHeld = Ramp.between(2.1 * reach, 1.35 * reach);
    double side = goal.widthM() != null && goal.lengthM() != null ? Math.min(goal.widthM(), goal.lengthM()) : 6;
    spreadFits = Ramp.between(1.5 * side, 0.75 * side);
    spreadPossible = Ramp.between(2.5 * side, 1.5 * side);
    double wanted = goal.firstCropWithinYears() != null ? goal.firstCropWithinYears() : 5;
    cropInTime = Ramp.between(2 * wanted, wanted);
    cropEarly = Ramp.between(Math.max(wanted, 2.5), 1.5);
    yield = Ramp.between(usualYieldKgPerM2 / 3, usualYieldKgPerM2 * 3);
    double keep = goal.keepForYears() != null ? goal.keepForYears() : usualKeepYears(goal);
    life = Ramp.between(0.4 * keep, 1.1 * keep);
  }

  /** Height that is reached from the ground or a low step, by purpose (common practice, no source). */
  static double usualReachM(Goal goal) {
    if (goal.purpose() == null) return 4;
    return switch (goal.purpose()) {
      case HOME_GARDEN, TEACHING_GARDEN -> 3.5;
      case MARKET_ORCHARD -> 4;
      case LOW_INPUT_ORCHARD -> 5;
      case LONG_LIVED_PLANTING -> 8;
    };
  }

  /** Years that such a planting is usually kept (common practice, no source). */
  static double usualKeepYears(Goal goal) {
    if (goal.purpose() == null) return 25;
    return switch (goal.purpose()) {
      case MARKET_ORCHARD -> 18;
      case HOME_GARDEN, TEACHING_GARDEN -> 25;
      case LOW_INPUT_ORCHARD -> 30;
      case LONG_LIVED_PLANTING -> 60;
    };
  }

  double size(double logHeight, double logSpread) {
    double fits = heightFits.of(logHeight) * (spaceGiven ? spreadFits.of(logSpread) : 1);
    return fits * (0.6 + 0.4 * heightUsesSpace.of(logHeight));
  }

  /** Factor of the limit: a tree that cannot be held at the wanted height, or whose crown does not go into the plot at all. */
  double sizeLimit(double logHeight, double logSpread) {
    return (heightGiven ? heightCanBeHeld.of(logHeight) : 1) * (spaceGiven ? spreadPossible.of(logSpread) : 1);
  }

  double early(double logYears) {
    return 0.65 * cropInTime.of(logYears) + 0.35 * cropEarly.of(logYears);
  }

  double yield(double logKgPerM2) {
    return yield.of(logKgPerM2);
  }

  double life(double logYears) {
    return life.of(logYears);
  }
}
