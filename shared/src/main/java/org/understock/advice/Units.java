package org.understock.advice;

import org.understock.site.Word;
import org.understock.wording.Sentence;
import org.understock.wording.Words;

/** Units of the texts; numbers in fields are SI whatever is chosen here. */
public enum Units implements Word {
  METRIC,
  US_CUSTOMARY;

  /** Metres in a foot. */
  public static final double M_PER_FT = 0.3048;

  /** Kilograms in a pound. */
  public static final double KG_PER_LB = 0.45359237;

  /** A length such as "2.9 m" or "9.5 ft". */
  public String length(Words words, double m) {
    return words.say("length." + id(), "x", feet(m));
  }

  /** A range of lengths such as "2.4 to 3.0 m". */
  public String lengths(Words words, double lowM, double highM) {
    String low = words.decimal(feet(lowM));
    String high = words.decimal(feet(highM));
    return low.equals(high)
        ? words.say("length." + id(), "x", low)
        : words.say("lengths." + id(), "low", low, "high", high);
  }

  /** A range of masses such as "25 to 60 kg". */
  public String masses(Words words, double lowKg, double highKg) {
    double scale = this == METRIC ? 1 : KG_PER_LB;
    long low = Math.round(lowKg / scale);
    long high = Math.round(highKg / scale);
    return low == high
        ? words.say("mass." + id(), "x", low)
        : words.say("masses." + id(), "low", low, "high", high);
  }

  /** A temperature such as "-26 °C" or "-15 °F". */
  public Sentence temperature(double c) {
    return Sentence.of("temperature." + id(), "x", Math.round(this == METRIC ? c : c * 1.8 + 32));
  }

  /** Yield for the ground it takes: "3.2 kg/m²" or "0.7 lb/ft²". */
  public String yieldPerArea(Words words, double kgPerM2) {
    double x = this == METRIC ? kgPerM2 : kgPerM2 / KG_PER_LB * M_PER_FT * M_PER_FT;
    return words.say("yield-per-area." + id(), "x", x);
  }

  private double feet(double m) {
    return this == METRIC ? m : m / M_PER_FT;
  }
}
