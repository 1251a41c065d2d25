package org.understock.site;

import java.util.List;
import org.understock.trait.Refusal;

/**
 * What the complete winters of a place brought, one after another; the three lists tell of the same
 * winters in the same order.
 *
 * @param chillHours hours from 0 to 7.2 °C
 * @param chillPortions Dynamic Model portions
 * @param coldestNightsC air temperature of the coldest night, °C
 */
public record MeasuredWinters(
    List<Double> chillHours, List<Double> chillPortions, List<Double> coldestNightsC) {
  public MeasuredWinters {
    chillHours = List.copyOf(chillHours);
    chillPortions = List.copyOf(chillPortions);
    coldestNightsC = List.copyOf(coldestNightsC);
    if (chillHours.isEmpty())
      throw new Refusal.OutOfRange("site.winters", 0, "1 complete winter or more");
    if (chillHours.size() != chillPortions.size() || chillHours.size() != coldestNightsC.size()) {
      throw new Refusal.Conflict(
          "site.winters",
          "chill hours, chill portions and coldest nights must be of the same winters");
    }
  }

  /** Number of winters. */
  public int count() {
    return chillHours.size();
  }
}
