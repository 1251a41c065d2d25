package org.understock.service.climate;

import org.understock.site.Word;

/** The unit in which temperatures come in; what goes out is in °C always. */
enum TemperatureUnit implements Word {
  CELSIUS, FAHRENHEIT;

  double toCelsius(double given) {
    return this == CELSIUS ? given : (given - 32) * 5 / 9;
  }
}
