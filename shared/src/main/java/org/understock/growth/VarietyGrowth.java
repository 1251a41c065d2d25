package org.understock.growth;

import java.util.List;

/**
 * How strongly a variety grows, beside a middling one on the same stock.
 *
 * @param lengthFactor factor on height and spread; wide around 1 when nothing is known
 * @param spur whether it is a spur type, as far as known
 * @param known whether any record speaks of its vigour or habit
 * @param records behind it
 */
public record VarietyGrowth(
    String variety, LogNormal lengthFactor, boolean spur, boolean known, List<String> records) {
  public VarietyGrowth {
    records = List.copyOf(records);
  }
}
