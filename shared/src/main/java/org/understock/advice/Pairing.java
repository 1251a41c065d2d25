package org.understock.advice;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.growth.Expectations;
import org.understock.plant.Crop;
import org.understock.plant.Stock;
import org.understock.plant.Variety;

/**
 * One variety on one stock at a place.
 *
 * @param unionChance 0 to 1 that the union holds for the tree's life; 1 where nothing speaks
 *     against it
 * @param ruledOut whether advice rules the pairing out because the union fails
 * @param unionVerdicts what is published of the union, as levels of the trait {@code compatibility}
 * @param interstem name of the stock to put between, where a source says so
 * @param unionRecords ids of the records behind it
 */
public record Pairing(
    Crop crop,
    Stock stock,
    Variety variety,
    Expectations expectations,
    double unionChance,
    boolean ruledOut,
    List<String> unionVerdicts,
    @Nullable String interstem,
    List<String> unionRecords) {
  public Pairing {
    unionVerdicts = List.copyOf(unionVerdicts);
    unionRecords = List.copyOf(unionRecords);
  }

  /** Such as "Fuji on G.969". */
  public String names() {
    return variety.name() + " on " + stock.name();
  }
}
