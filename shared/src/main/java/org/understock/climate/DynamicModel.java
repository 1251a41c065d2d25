package org.understock.climate;

/**
 * The Dynamic Model of chill (Fishman, Erez and Couvillon 1987; Erez and others 1990): an
 * intermediate product forms and decays with the temperature, and whenever an hour ends with one
 * unit or more of it, a share that depends on the temperature is banked for good as a chill
 * portion.
 *
 * <p>One step an hour, from an intermediate of 0 before the first; an hour's own temperature drives
 * its step, and all hours count: after n hours, n steps were made. Other programs print the same
 * recursion one hour late, or begin with the second hour; in the reference cases they differ by at
 * most 0.83 portions. Constants as in the documentation of chillR and in fruclimadapt, with kelvin
 * taken as °C + 273.
 */
public final class DynamicModel {
  private static final double E0 = 4153.5;
  private static final double E1 = 12888.8;
  private static final double A0 = 139500;
  private static final double A1 = 2.567e18;
  private static final double SLOPE = 1.6;
  private static final double TF_K = 277;
  private static final double ZERO_C_K = 273;

  private double carried;
  private double intermediate;

  /** Makes the step of the next hour. @return the portion that it banks, 0 for most hours */
  public double hour(double temperatureC) {
    double kelvin = temperatureC + ZERO_C_K;
    double equilibrium = A0 / A1 * Math.exp((E1 - E0) / kelvin);
    double rate = A1 * Math.exp(-E1 / kelvin);
    intermediate = equilibrium - (equilibrium - carried) * Math.exp(-rate);
    if (intermediate < 1) {
      carried = intermediate;
      return 0;
    }
    double portion = intermediate * fixedShare(kelvin);
    carried = intermediate - portion;
    return portion;
  }

  /** The intermediate product right after the last step, before a portion was taken off. */
  public double intermediate() {
    return intermediate;
  }

  private static double fixedShare(double kelvin) {
    return 1 / (1 + Math.exp(-SLOPE * TF_K * (kelvin - TF_K) / kelvin));
  }
}
