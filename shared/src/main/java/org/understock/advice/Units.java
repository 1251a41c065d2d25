package org.understock.advice;

import java.math.BigDecimal;
import java.math.RoundingMode;
import org.understock.site.Word;

/** Units of the texts; numbers in fields are SI whatever is chosen here. */
public enum Units implements Word {
  METRIC,
  US_CUSTOMARY;

  private static final double M_PER_FT = 0.3048;
  private static final double KG_PER_LB = 0.45359237;

  /** A length such as "2.9 m" or "9.5 ft". */
  public String length(double m) {
    return this == METRIC ? decimal(m) + " m" : decimal(m / M_PER_FT) + " ft";
  }

  /** A range of lengths such as "2.4 to 3.0 m". */
  public String lengths(double lowM, double highM) {
    double scale = this == METRIC ? 1 : M_PER_FT;
    String low = decimal(lowM / scale);
    String high = decimal(highM / scale);
    return (low.equals(high) ? low : low + " to " + high) + (this == METRIC ? " m" : " ft");
  }

  /** A range of masses such as "25 to 60 kg". */
  public String masses(double lowKg, double highKg) {
    double scale = this == METRIC ? 1 : KG_PER_LB;
    String low = whole(lowKg / scale);
    String high = whole(highKg / scale);
    return (low.equals(high) ? low : low + " to " + high) + (this == METRIC ? " kg" : " lb");
  }

  /** A temperature such as "-26 °C" or "-15 °F". */
  public String temperature(double c) {
    return this == METRIC ? whole(c) + " °C" : whole(c * 1.8 + 32) + " °F";
  }

  /** Yield for the ground it takes: "3.2 kg/m²" or "0.7 lb/ft²". */
  public String yieldPerArea(double kgPerM2) {
    return this == METRIC
        ? decimal(kgPerM2) + " kg/m²"
        : decimal(kgPerM2 / KG_PER_LB * M_PER_FT * M_PER_FT) + " lb/ft²";
  }

  static String decimal(double x) {
    return BigDecimal.valueOf(x).setScale(1, RoundingMode.HALF_UP).toPlainString();
  }

  static String whole(double x) {
    return String.valueOf(Math.round(x));
  }
}
