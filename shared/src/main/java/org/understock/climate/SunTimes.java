package org.understock.climate;

/**
 * When the sun rises and sets on a day at a latitude, in solar hours with noon at 12. Declination
 * by Spencer (1971), the sun's upper edge on the horizon with refraction (-0.8333°), as in Almorox
 * and others (2005).
 *
 * @param sunriseH hour of sunrise; NaN where the sun does not rise or does not set
 * @param sunsetH hour of sunset; NaN likewise
 * @param dayLengthH 0 to 24
 */
public record SunTimes(double sunriseH, double sunsetH, double dayLengthH) {
  private static final double HORIZON_RAD = Math.toRadians(-0.8333);
  private static final double DEGREES_PER_HOUR = 15;

  /**
   * @param latitude degrees north
   * @param dayOfYear 1 for 1 January, 366 for the last day of a leap year; the angle uses 365 days
   *     in leap years too
   */
  public static SunTimes of(double latitude, int dayOfYear) {
    double declination = declination(dayOfYear);
    double phi = Math.toRadians(latitude);
    double cosine =
        (Math.sin(HORIZON_RAD) - Math.sin(phi) * Math.sin(declination))
            / (Math.cos(phi) * Math.cos(declination));
    if (cosine > 1) return new SunTimes(Double.NaN, Double.NaN, 0);
    if (cosine < -1) return new SunTimes(Double.NaN, Double.NaN, 24);
    double half = Math.toDegrees(Math.acos(cosine)) / DEGREES_PER_HOUR;
    return new SunTimes(12 - half, 12 + half, 2 * half);
  }

  static double declination(int dayOfYear) {
    double g = 2 * Math.PI * (dayOfYear - 1) / 365;
    return 0.006918
        - 0.399912 * Math.cos(g)
        + 0.070257 * Math.sin(g)
        - 0.006758 * Math.cos(2 * g)
        + 0.000907 * Math.sin(2 * g)
        - 0.002697 * Math.cos(3 * g)
        + 0.00148 * Math.sin(3 * g);
  }
}
