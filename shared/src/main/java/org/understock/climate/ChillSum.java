package org.understock.climate;

/** Chill and heat summed hour by hour; its memory does not grow with the hours. */
public final class ChillSum {
  private final DynamicModel dynamic = new DynamicModel();
  private double chillHours;
  private double utahUnits;
  private double positiveUtahUnits;
  private double chillPortions;
  private double growingDegreeHours;

  /** Adds the next hour. */
  public void add(double temperatureC) {
    double utah = HourWeights.utahUnit(temperatureC);
    chillHours += HourWeights.chillingHour(temperatureC);
    utahUnits += utah;
    positiveUtahUnits += Math.max(0, utah);
    chillPortions += dynamic.hour(temperatureC);
    growingDegreeHours += HourWeights.growingDegreeHour(temperatureC);
  }

  /** The sums so far. */
  public Chill total() {
    return new Chill(chillHours, utahUnits, positiveUtahUnits, chillPortions, growingDegreeHours);
  }

  /** What has been counted in one measure so far. */
  double of(ChillMeasure measure) {
    return switch (measure) {
      case CHILL_HOURS -> chillHours;
      case UTAH_UNITS -> utahUnits;
      case CHILL_PORTIONS -> chillPortions;
    };
  }
}
