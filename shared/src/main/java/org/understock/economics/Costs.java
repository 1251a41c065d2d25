package org.understock.economics;

import org.jspecify.annotations.Nullable;
import org.understock.trait.Refusal;

/**
 * What a planting costs, in the asker's money; what is null is not counted.
 *
 * @param treeEach per tree bought, the spare ones too
 * @param plantingPerTree labour to plant, per tree planted
 * @param supportPerTree per tree that needs a support, the fixing of it included
 * @param supportPerM wires with their posts, per metre of row; only where the plan has wires
 * @param guardEach per tree guard
 * @param irrigationPerM per metre of drip line
 * @param groundPerHa to make the ground ready, per hectare of the plot
 * @param yearlyPerTree care of a tree, a year
 * @param yearlyPerHa care of the ground and all else that does not depend on the trees, a year
 * @param harvestPerKg picking and all that follows, per kg borne
 * @param grubbingPerTree at the end
 * @param grubbingPerHa at the end
 */
public record Costs(
    @Nullable Double treeEach,
    @Nullable Double plantingPerTree,
    @Nullable Double supportPerTree,
    @Nullable Double supportPerM,
    @Nullable Double guardEach,
    @Nullable Double irrigationPerM,
    @Nullable Double groundPerHa,
    @Nullable Double yearlyPerTree,
    @Nullable Double yearlyPerHa,
    @Nullable Double harvestPerKg,
    @Nullable Double grubbingPerTree,
    @Nullable Double grubbingPerHa) {

  public static final Costs NONE =
      new Costs(null, null, null, null, null, null, null, null, null, null, null, null);

  /** The highest sum that is taken for a price or a cost. */
  public static final double MOST = 1e9;

  public Costs {
    check("treeEach", treeEach);
    check("plantingPerTree", plantingPerTree);
    check("supportPerTree", supportPerTree);
    check("supportPerM", supportPerM);
    check("guardEach", guardEach);
    check("irrigationPerM", irrigationPerM);
    check("groundPerHa", groundPerHa);
    check("yearlyPerTree", yearlyPerTree);
    check("yearlyPerHa", yearlyPerHa);
    check("harvestPerKg", harvestPerKg);
    check("grubbingPerTree", grubbingPerTree);
    check("grubbingPerHa", grubbingPerHa);
  }

  /** With another price of a tree; null keeps this one's. */
  public Costs withTreeEach(@Nullable Double each) {
    return each == null
        ? this
        : new Costs(
            each,
            plantingPerTree,
            supportPerTree,
            supportPerM,
            guardEach,
            irrigationPerM,
            groundPerHa,
            yearlyPerTree,
            yearlyPerHa,
            harvestPerKg,
            grubbingPerTree,
            grubbingPerHa);
  }

  private static void check(String name, @Nullable Double sum) {
    if (sum != null && !(sum >= 0 && sum <= MOST))
      throw new Refusal.OutOfRange("money.costs." + name, sum, "between 0 and 1000000000");
  }
}
