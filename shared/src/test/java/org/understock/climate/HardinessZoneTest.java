package org.understock.climate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.understock.trait.Refusal;

class HardinessZoneTest {

  @ParameterizedTest
  @CsvFileSource(resources = "/climate/hardiness-zones.csv", numLinesToSkip = 1)
  void bounds_and_classes_agree_with_the_map(
      String label, double minF, double maxF, double minC, double maxC, String source) {
    HardinessZone zone = HardinessZone.ofFahrenheit(minF);
    assertThat(zone.label()).isEqualTo(label);
    assertThat(HardinessZone.ofFahrenheit(maxF - 0.001)).isEqualTo(zone);
    // The map prints °C to one decimal.
    assertThat(zone.minimumC()).isCloseTo(minC, within(0.05));
    assertThat(zone.maximumC()).isCloseTo(maxC, within(0.05));
    assertThat(HardinessZone.ofCelsius(minC)).as("printed bound %s °C", minC).isEqualTo(zone);
    assertThat(HardinessZone.ofCelsius((minC + maxC) / 2)).isEqualTo(zone);
  }

  @Test
  void refuses_what_the_scale_does_not_hold() {
    assertThatThrownBy(() -> HardinessZone.ofFahrenheit(70)).isInstanceOf(Refusal.OutOfRange.class);
    assertThatThrownBy(() -> HardinessZone.ofFahrenheit(-60.1))
        .isInstanceOf(Refusal.OutOfRange.class);
    assertThatThrownBy(() -> HardinessZone.ofCelsius(Double.NaN))
        .isInstanceOf(Refusal.OutOfRange.class);
  }
}
