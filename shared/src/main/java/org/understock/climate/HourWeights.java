package org.understock.climate;

/** What one hour at a temperature adds in the models without memory. */
public final class HourWeights {
  private static final double CHILLING_UPPER_C = 7.2;

  /** Anderson, Richardson and Kesner 1986, with stress factor 1. */
  private static final double HEAT_BASE_C = 4;

  private static final double HEAT_BEST_C = 25;
  private static final double HEAT_CEILING_C = 36;

  private HourWeights() {}

  /**
   * 1 from 0 to 7.2 °C, both ends counted, else 0 (Bennett 1949, Weinberger 1950, as documented in
   * chillR).
   */
  public static double chillingHour(double temperatureC) {
    return temperatureC >= 0 && temperatureC <= CHILLING_UPPER_C ? 1 : 0;
  }

  /**
   * Utah chill units (Richardson, Seeley and Walker 1974): of each class the lower end is open, the
   * upper end closed; limits in °C.
   */
  public static double utahUnit(double temperatureC) {
    if (temperatureC <= 1.4) return 0;
    if (temperatureC <= 2.4) return 0.5;
    if (temperatureC <= 9.1) return 1;
    if (temperatureC <= 12.4) return 0.5;
    if (temperatureC <= 15.9) return 0;
    return temperatureC <= 18 ? -0.5 : -1;
  }

  /** Utah units without those that warmth takes away (Linsley-Noakes and Allan 1994). */
  public static double positiveUtahUnit(double temperatureC) {
    return Math.max(0, utahUnit(temperatureC));
  }

  /**
   * Growing degree hours by the asymmetric cosine curve (Anderson, Richardson and Kesner 1986): 0
   * below 4 and above 36 °C, 21 at 25 °C.
   */
  public static double growingDegreeHour(double temperatureC) {
    if (temperatureC < HEAT_BASE_C || temperatureC > HEAT_CEILING_C) return 0;
    double range = HEAT_BEST_C - HEAT_BASE_C;
    if (temperatureC <= HEAT_BEST_C)
      return range / 2 * (1 + Math.cos(Math.PI + Math.PI * (temperatureC - HEAT_BASE_C) / range));
    return range
        * (1
            + Math.cos(
                Math.PI / 2
                    + Math.PI / 2 * (temperatureC - HEAT_BEST_C) / (HEAT_CEILING_C - HEAT_BEST_C)));
  }
}
