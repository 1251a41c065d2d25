package org.understock.growth;

import java.util.List;

/**
 * How a stock grows in one crop, at a middling site under a middling variety.
 *
 * @param size fraction of the crop's standard (seedling) tree, 1 = standard
 * @param freeHeightM height left to grow, in m
 * @param usualHeightM height as usually kept, in m
 * @param lowestHeightM height as low as pruning holds it, in m
 * @param spreadM width of the crown as kept, in m
 * @param firstCropYear years from planting to the first crop
 * @param fullCropYear years from planting to the full crop
 * @param lifeYears years that the tree lasts
 * @param matureYieldKg crop of a full-grown tree in a year, in kg
 * @param support need of support, with the records behind it
 * @param thin what rests on neither records of this stock nor its size
 */
public record StockGrowth(
    String stock,
    Part size,
    Part freeHeightM,
    Part usualHeightM,
    Part lowestHeightM,
    Part spreadM,
    Part firstCropYear,
    Part fullCropYear,
    Part lifeYears,
    Part matureYieldKg,
    Support support,
    List<Thin> thin) {

  public StockGrowth {
    thin = List.copyOf(thin);
  }

  /** The same with another need of support. */
  public StockGrowth with(SupportNeed need) {
    return new StockGrowth(
        stock,
        size,
        freeHeightM,
        usualHeightM,
        lowestHeightM,
        spreadM,
        firstCropYear,
        fullCropYear,
        lifeYears,
        matureYieldKg,
        new Support(need, support.records()),
        thin);
  }

  /** Need of support and the records behind it; none when it is taken from stocks of like size. */
  public record Support(SupportNeed need, List<String> records) {
    public Support {
      records = List.copyOf(records);
    }
  }

  /**
   * A quantity that rests on the crop at large.
   *
   * @param trait id of the trait that a record would fill the gap with
   * @param text for people
   */
  public record Thin(String trait, String text) {}
}
