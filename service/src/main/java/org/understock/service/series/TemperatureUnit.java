package org.understock.service.series;

import org.understock.site.Word;

/** The unit in which temperatures come in; what goes out is in °C always. */
public enum TemperatureUnit implements Word {
  CELSIUS,
  FAHRENHEIT;

  /** A temperature in this unit, in °C. */
  public double toCelsius(double given) {
    return this == CELSIUS ? given : (given - 32) * 5 / 9;
  }
}
