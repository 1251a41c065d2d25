package org.understock.growth;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.assertj.core.api.Assertions.withinPercentage;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;
import org.understock.trait.Refusal;

class DensityTest {
  private static final double FOOT_M = 0.3048;

  @ParameterizedTest(name = "{0} {1} x {2} m")
  @CsvFileSource(
      resources = "trees-per-hectare.csv",
      numLinesToSkip = 1) // its comment lines name the sources
  void trees_per_hectare_agree_with_table(
      String layout,
      Double rowM,
      double treeM,
      Double gapM,
      double perHa,
      double perAcre,
      String source) {
    double trees =
        switch (layout) {
          case "rectangular" -> Density.rectangular(rowM, treeM);
          case "equilateral triangle" -> Density.triangular(treeM);
          case "double row" -> Density.doubleRow(rowM, treeM, gapM);
          default -> throw new IllegalArgumentException(layout);
        };
    assertThat(trees).as(source).isCloseTo(perHa, within(5e-5)); // the table prints four decimals
    assertThat(Density.perAcre(trees)).as(source).isCloseTo(perAcre, within(5e-5));
  }

  /**
   * Trees per acre as printed in extension answers (ext-apples-qa) and a grower's article
   * (fgn-tall-spindle-2007).
   */
  @ParameterizedTest(name = "{0} x {1} ft")
  @CsvSource({"26, 20, 84", "14, 4, 778", "14, 2, 1556"})
  void trees_per_acre_agree_with_print(double rowFt, double inRowFt, double printed) {
    assertThat(Density.perAcre(Density.rectangular(rowFt * FOOT_M, inRowFt * FOOT_M)))
        .isCloseTo(printed, within(0.5));
  }

  /**
   * Canadian tree-row volume fact sheet (canada-trv-factsheet): trees 4.8 m high and 5.5 m wide in
   * rows 7.4 m apart, 35 676 m³/ha.
   */
  @Test
  void tree_row_volume_agrees_with_fact_sheet() {
    assertThat(Density.treeRowVolumeM3PerHa(4.8, 5.5, 7.4)).isCloseTo(35_676, within(0.5));
  }

  /**
   * US units: ft³/acre = height × width × 43 560 / row, dilute gallons/acre = ft³ × 0.7 / 1000.
   * Printed: 11 x 8 ft in 12 ft rows, 223 gallons (wisc-trv-2023, which cuts 223.6); 20 x 23 ft in
   * 35 ft rows, 572 503 ft³ and 400 gallons (psu-tfpg-trv).
   */
  @ParameterizedTest(name = "{0} x {1} ft in {2} ft rows")
  @CsvSource({"11, 8, 12, 319440, 223.6", "20, 23, 35, 572503, 400.8"})
  void tree_row_volume_agrees_with_print_in_us_units(
      double heightFt, double widthFt, double rowFt, double printedFt3PerAcre, double gallons) {
    double m3PerHa =
        Density.treeRowVolumeM3PerHa(heightFt * FOOT_M, widthFt * FOOT_M, rowFt * FOOT_M);
    double ft3PerAcre = Density.perAcre(m3PerHa) / Math.pow(FOOT_M, 3);
    assertThat(ft3PerAcre).isCloseTo(printedFt3PerAcre, withinPercentage(0.001));
    assertThat(ft3PerAcre * 0.7 / 1000).isCloseTo(gallons, within(0.05));
  }

  @Test
  void distances_must_be_positive() {
    assertThatThrownBy(() -> Density.rectangular(0, 2))
        .isInstanceOf(Refusal.OutOfRange.class)
        .hasMessageContaining("rowM");
    assertThatThrownBy(() -> Density.rectangular(4, Double.NaN))
        .isInstanceOf(Refusal.OutOfRange.class)
        .hasMessageContaining("inRowM");
  }
}
