package org.understock.climate;

import java.util.Locale;
import org.understock.trait.Refusal;

/**
 * A USDA hardiness half zone: a class of 5 °F of the average annual extreme minimum temperature,
 * from 1a (-60 °F) to 13b (up to 70 °F). Source: USDA Agricultural Research Service, Plant
 * Hardiness Zone Map.
 *
 * @param index 0 for 1a to 25 for 13b
 */
public record HardinessZone(int index) {
  private static final double LOWEST_F = -60;
  private static final double HALF_ZONE_F = 5;
  private static final int HALF_ZONES = 26;

  /**
   * Bounds are whole numbers in Fahrenheit and are printed rounded to 0.1 °C (-20 °F as -28.9 °C).
   * A temperature given in Celsius that lies within half of that last digit below a bound is taken
   * as the bound.
   */
  private static final double PRINTED_ROUNDING_C = 0.05;

  public HardinessZone {
    if (index < 0 || index >= HALF_ZONES)
      throw new Refusal.OutOfRange("hardinessZone", index, "an index from 0 (1a) to 25 (13b)");
  }

  /**
   * Zone of an average annual extreme minimum in °C.
   *
   * @throws Refusal.OutOfRange outside the scale, that is below -51.1 °C or at 21.1 °C and above
   */
  public static HardinessZone ofCelsius(double minimumC) {
    return ofFahrenheit((minimumC + PRINTED_ROUNDING_C) * 9 / 5 + 32);
  }

  /**
   * Zone of an average annual extreme minimum in °F; a bound belongs to the warmer zone.
   *
   * @throws Refusal.OutOfRange below -60 °F or at 70 °F and above
   */
  public static HardinessZone ofFahrenheit(double minimumF) {
    double step = Math.floor((minimumF - LOWEST_F) / HALF_ZONE_F);
    if (!(step >= 0 && step < HALF_ZONES))
      throw new Refusal.OutOfRange("coldestNight", minimumF + " °F", "from -60 °F to below 70 °F");
    return new HardinessZone((int) step);
  }

  /** Name as the map prints it, such as {@code 5b}. */
  public String label() {
    return (index / 2 + 1) + (index % 2 == 0 ? "a" : "b");
  }

  /** Lower bound in °F. */
  public double minimumF() {
    return LOWEST_F + HALF_ZONE_F * index;
  }

  /** Lower bound in °C. */
  public double minimumC() {
    return celsius(minimumF());
  }

  /** Upper bound in °C, which belongs to the next zone. */
  public double maximumC() {
    return celsius(minimumF() + HALF_ZONE_F);
  }

  private static double celsius(double fahrenheit) {
    return (fahrenheit - 32) * 5 / 9;
  }

  @Override
  public String toString() {
    return String.format(Locale.ROOT, "zone %s (%.1f to %.1f °C)", label(), minimumC(), maximumC());
  }
}
