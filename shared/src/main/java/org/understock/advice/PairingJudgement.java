package org.understock.advice;

import org.understock.site.Goal;

/**
 * The value functions of the criteria that belong to the tree as a whole: size, early crop, yield,
 * length of life. Each is made of ramps on the natural log of the quantity (metres, years, kg/m²),
 * runs from 0 to 1, and is worked out for all draws of a tree at once. What the grower did not say
 * is taken from the purpose, with wider ramps.
 */
final class PairingJudgement {
  /** Stands for a factor or weight of 1 in every draw. */
  static final double[] ONES = Side.constant(1);

  /**
   * Depth of a tree that is trained flat along wires, with a path before it (common practice, no
   * source).
   */
  private static final double FLAT_M = 0.6;

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

  /**
   * @param usualYieldKgPerM2 median over the crop's stocks, the middle of the yield scale
   */
  PairingJudgement(Goal goal, double usualYieldKgPerM2) {
    heightGiven = goal.maxHeightM() != null;
    spaceGiven = goal.widthM() != null;
    double reach = goal.maxHeightM() != null ? goal.maxHeightM() : usualReachM(goal);
    heightFits = heightGiven ? Ramp.between(1.6 * reach, reach) : Ramp.between(2.4 * reach, reach);
    heightUsesSpace = Ramp.between(0.3 * reach, 0.7 * reach);
    heightCanBeHeld = Ramp.between(2.1 * reach, 1.35 * reach);
    double side = goal.widthM() != null && goal.lengthM() != null ? sideM(goal) : 6;
    spreadFits = Ramp.between(1.5 * side, 0.75 * side);
    spreadPossible = Ramp.between(2.5 * side, 1.5 * side);
    double wanted = goal.firstCropWithinYears() != null ? goal.firstCropWithinYears() : 5;
    cropInTime = Ramp.between(2 * wanted, wanted);
    cropEarly = Ramp.between(Math.max(wanted, 2.5), 1.5);
    yield = Ramp.between(usualYieldKgPerM2 / 3, usualYieldKgPerM2 * 3);
    double keep = goal.keepForYears() != null ? goal.keepForYears() : usualKeepYears(goal);
    life = Ramp.between(0.4 * keep, 1.1 * keep);
  }

  /**
   * Whether a narrow plot is to be planted along a trellis: such trees are trained flat, and need
   * the room along the wires and not across (common practice, no source).
   */
  static boolean trainedFlat(Goal goal) {
    if (goal.widthM() == null || goal.lengthM() == null || goal.support() != Goal.Support.TRELLIS)
      return false;
    double across = Math.min(goal.widthM(), goal.lengthM());
    return across >= FLAT_M && Math.max(goal.widthM(), goal.lengthM()) >= 2 * across;
  }

  /** The side of the plot into which the crown must go. */
  static double sideM(Goal goal) {
    double width = java.util.Objects.requireNonNull(goal.widthM());
    double length = java.util.Objects.requireNonNull(goal.lengthM());
    return trainedFlat(goal) ? Math.max(width, length) : Math.min(width, length);
  }

  /**
   * Height that is reached from the ground or a low step, by purpose (common practice, no source).
   */
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

  /** Whether there is a limit to the tree's size at all. */
  boolean limitsSize() {
    return heightGiven || spaceGiven;
  }

  /**
   * Weight times satisfaction with the tree's size, by draw; its scores are the sums of both
   * sides'.
   */
  void size(Field.Tree t, double[] stock, double[] variety, double[] weight, double[] into) {
    heightFits.times(t.muHeight(), t.sdHeight(), 0, stock, variety, weight, into);
    heightUsesSpace.times(t.muHeight(), t.sdHeight(), 0.6, stock, variety, into, into);
    if (spaceGiven) spreadFits.times(t.muSpread(), t.sdSpread(), 0, stock, variety, into, into);
  }

  /**
   * Factor of the limit by draw: a tree that cannot be held at the wanted height, or whose crown
   * does not go into the plot at all.
   */
  void sizeLimit(Field.Tree t, double[] stock, double[] variety, double[] into) {
    double[] from = ONES;
    if (heightGiven) {
      heightCanBeHeld.times(t.muHeight(), t.sdHeight(), 0, stock, variety, from, into);
      from = into;
    }
    if (spaceGiven) spreadPossible.times(t.muSpread(), t.sdSpread(), 0, stock, variety, from, into);
  }

  void early(Field.Tree t, double[] stock, double[] variety, double[] weight, double[] into) {
    cropInTime.times(t.muEarly(), t.sdEarly(), 0, stock, variety, ONES, into);
    cropEarly.mix(t.muEarly(), t.sdEarly(), 0.35, stock, variety, weight, into, into);
  }

  void yield(Field.Tree t, double[] stock, double[] variety, double[] weight, double[] into) {
    yield.times(t.muYield(), t.sdYield(), 0, stock, variety, weight, into);
  }

  void life(Field.Tree t, double[] stock, double[] variety, double[] weight, double[] into) {
    life.times(t.muLife(), t.sdLife(), 0, stock, variety, weight, into);
  }
}
