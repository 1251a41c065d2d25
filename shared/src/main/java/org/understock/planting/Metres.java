package org.understock.planting;

import java.math.BigDecimal;
import java.math.RoundingMode;

/** Lengths and numbers as the plan's sentences give them. */
final class Metres {
  private Metres() {}

  /** To the decimetre, such as {@code 4.6}. */
  static String text(double m) {
    return BigDecimal.valueOf(m).setScale(1, RoundingMode.HALF_UP).toPlainString();
  }

  /** A share in whole per cent, or in tenths below ten. */
  static String percent(double share) {
    return BigDecimal.valueOf(100 * share)
            .setScale(share < 0.1 ? 1 : 0, RoundingMode.HALF_UP)
            .stripTrailingZeros()
            .toPlainString()
        + " %";
  }

  /** Up to the next decimetre. */
  static double up(double m) {
    return Math.ceil(m * 10 - 1e-6) / 10;
  }
}
