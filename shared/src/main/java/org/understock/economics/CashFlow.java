package org.understock.economics;

import java.util.OptionalDouble;
import java.util.OptionalInt;

/**
 * What can be said of a row of yearly payments. {@code flow[0]} is paid today, {@code flow[t]} at
 * the end of year t; money that comes in counts above 0. Rates are shares, such as 0.05.
 */
public final class CashFlow {
  private static final double HIGHEST_RATE = 1e6;
  private static final int HALVINGS = 200;

  private CashFlow() {}

  /** Worth today at a yearly rate above -1; at 0 the plain sum. */
  public static double presentValue(double[] flow, double rate) {
    double value = 0;
    for (int t = flow.length - 1; t >= 0; t--) value = value / (1 + rate) + flow[t];
    return value;
  }

  /** Payments added up year by year, not discounted. */
  public static double[] cumulative(double[] flow) {
    double[] sums = flow.clone();
    for (int t = 1; t < sums.length; t++) sums[t] += sums[t - 1];
    return sums;
  }

  /**
   * The equal payment at the end of each of so many years that is worth as much today: makes
   * undertakings of different length comparable, as if each were begun again whenever it ends.
   *
   * @param years 1 or more
   */
  public static double annuity(double presentValue, double rate, int years) {
    return presentValue / annuityFactor(rate, years);
  }

  /** Worth today of 1 at the end of each of so many years. */
  public static double annuityFactor(double rate, int years) {
    if (years < 1) throw new IllegalArgumentException("years must be 1 or more, not " + years);
    return rate == 0 ? years : -Math.expm1(-years * Math.log1p(rate)) / rate;
  }

  /**
   * The first year at whose end all that was paid out has come in again, not discounted; 0 when
   * nothing was paid out at the beginning. Empty when that does not happen in the years of the
   * flow.
   */
  public static OptionalInt paybackYear(double[] flow) {
    double sum = 0;
    double scale = 0;
    for (int t = 0; t < flow.length; t++) {
      sum += flow[t];
      scale = Math.max(scale, Math.abs(flow[t]));
      if (sum >= -1e-12 * scale) return OptionalInt.of(t);
    }
    return OptionalInt.empty();
  }

  /**
   * The rate at which the flow is worth nothing today, where there is exactly one such rate to
   * speak of: the flow changes its sign once (Descartes' rule of signs), or it ends above 0 in all
   * and its running sum changes sign once, which leaves one rate above 0 (C. J. Norstrøm, A
   * sufficient condition for a unique nonnegative internal rate of return, Journal of Financial and
   * Quantitative Analysis 7, 1972; the rule as it is given in textbooks, from memory). Empty
   * otherwise, also where nothing is paid out first.
   */
  public static OptionalDouble internalRate(double[] flow) {
    int first = 0;
    while (first < flow.length && flow[first] == 0) first++;
    if (first == flow.length || flow[first] > 0) return OptionalDouble.empty();
    if (signChanges(flow) == 1) return root(flow, -1);
    double[] sums = cumulative(flow);
    boolean one = signChanges(sums) == 1 && sums[sums.length - 1] > 0;
    return one ? root(flow, 0) : OptionalDouble.empty();
  }

  private static int signChanges(double[] row) {
    int changes = 0;
    double sign = 0;
    for (double x : row) {
      if (x == 0) continue;
      if (sign != 0 && Math.signum(x) != sign) changes++;
      sign = Math.signum(x);
    }
    return changes;
  }

  /**
   * By halving the factor 1 / (1 + rate): the worth grows with it and crosses 0 once between the
   * bounds.
   */
  private static OptionalDouble root(double[] flow, double lowestRate) {
    double low = 1 / (1 + HIGHEST_RATE);
    double high = 1;
    if (lowestRate < 0) {
      while (polynomial(flow, high) < 0 && high < 1e9) high *= 2;
    }
    if (polynomial(flow, high) < 0 || polynomial(flow, low) > 0) return OptionalDouble.empty();
    for (int k = 0; k < HALVINGS && high - low > 1e-15 * high; k++) {
      double middle = low + (high - low) / 2;
      if (polynomial(flow, middle) < 0) low = middle;
      else high = middle;
    }
    return OptionalDouble.of(1 / high - 1);
  }

  private static double polynomial(double[] flow, double factor) {
    double value = 0;
    for (int t = flow.length - 1; t >= 0; t--) value = value * factor + flow[t];
    return value;
  }
}
