package org.understock.service.reading;

/** Figures as answers give them: no more digits than can be told apart in an orchard. */
public final class Rounding {
  private Rounding() {}

  public static double tenths(double x) {
    return Math.round(10 * x) / 10.0;
  }

  /** Whole kilograms from ten upward, tenths below. */
  public static double kg(double x) {
    return x >= 10 ? Math.round(x) : tenths(x);
  }

  /** Whole years, the first at least. */
  public static long years(double years) {
    return Math.max(1, Math.round(years));
  }
}
