package org.understock.evidence;

import org.understock.plant.Crop;
import org.understock.trait.Refusal;

/**
 * One place in a published order of stocks that comes without figures. Group 1 is the smallest;
 * stocks of one group were not told apart. A check on the estimates, not a record that is pooled.
 *
 * @param source id of the source
 * @param trial id of the order; places are comparable only inside it, per site, scion and trait
 * @param stock id of the stock
 */
public record Ordering(
    String source,
    String trial,
    Crop crop,
    String scion,
    String site,
    String trait,
    int group,
    String stock,
    String locator,
    String note) {
  public Ordering {
    if (group < 1) throw new Refusal.OutOfRange("group", group, "1 or more");
    if (locator.isBlank())
      throw new Refusal.OutOfRange(
          "locator", "''", "the place in the source, such as a table or page");
  }
}
