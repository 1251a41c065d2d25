package org.understock.climate;

import org.understock.site.Word;
import org.understock.wording.Sentence;

/**
 * A measure of chill in which requirements are published. What one measure counts is never turned
 * into another.
 */
public enum ChillMeasure implements Word {
  /** Portions of the Dynamic Model. */
  CHILL_PORTIONS("chill-portions", "portions"),

  /** Units of the Utah model. */
  UTAH_UNITS("chill-units", "CU"),

  /** Hours from 0 to 7.2 °C. */
  CHILL_HOURS("chill-hours", "h");

  private final String trait;
  private final String unit;

  ChillMeasure(String trait, String unit) {
    this.trait = trait;
    this.unit = unit;
  }

  /** Trait that holds requirements in this measure. */
  public String trait() {
    return trait;
  }

  /** Unit of the trait. */
  public String unit() {
    return unit;
  }

  /** What it is called in a sentence. */
  public Sentence label() {
    return Sentence.of("chill." + id());
  }
}
