package org.understock.climate;

/**
 * Sums over a stretch of hours.
 *
 * @param chillHours hours from 0 to 7.2 °C
 * @param utahUnits Utah units; warmth takes away
 * @param positiveUtahUnits Utah units of which none are taken away
 * @param chillPortions portions of the Dynamic Model
 * @param growingDegreeHours heat by the asymmetric cosine curve
 */
public record Chill(
    double chillHours,
    double utahUnits,
    double positiveUtahUnits,
    double chillPortions,
    double growingDegreeHours) {
  /** The sum in one measure. */
  public double of(ChillMeasure measure) {
    return switch (measure) {
      case CHILL_HOURS -> chillHours;
      case UTAH_UNITS -> utahUnits;
      case CHILL_PORTIONS -> chillPortions;
    };
  }
}
