package org.understock.wording;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Tenths are written as the decimal digits of a number have them, halves away from zero. */
class DecimalTest {
  @Test
  void tenths_of_many_numbers_are_those_of_decimal_arithmetic() {
    Random random = new Random(5);
    for (int k = 0; k < 100_000; k++) {
      double x = (random.nextDouble() - 0.5) * Math.pow(10, random.nextInt(14) - 3);
      if (random.nextBoolean()) x = Math.rint(100 * x) / 100; // many of them halves of a tenth
      check(x);
    }
  }

  @ParameterizedTest
  @ValueSource(
      doubles = {
        0, -0.0, 0.05, -0.05, 0.04, -0.04, 0.15, 0.25, 2.45, 1.005, 9.95, 99.95, 1e9, -1e12
      })
  void halves_signs_and_large_numbers(double x) {
    check(x);
  }

  private static void check(double x) {
    String expected = BigDecimal.valueOf(x).setScale(1, RoundingMode.HALF_UP).toPlainString();
    assertThat(Words.ENGLISH.decimal(x)).isEqualTo(expected);
    assertThat(Words.in(Language.SPANISH).decimal(x)).isEqualTo(expected.replace('.', ','));
  }
}
