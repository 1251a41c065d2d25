package org.understock.economics;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.trait.Refusal;

/**
 * What the fruit brings, in the asker's money.
 *
 * @param perKg for a kilogram that is sold as good fruit, from the first year on
 * @param steps other prices from later years on, years rising
 * @param saleablePercent share of the crop that is sold as good fruit, 0 to 100; null: all of it
 * @param restPerKg for a kilogram of the rest, such as for juice; null: nothing
 */
public record Prices(
    double perKg, List<Step> steps, @Nullable Double saleablePercent, @Nullable Double restPerKg) {

  /** A price from a year on. */
  public record Step(int fromYear, double perKg) {}

  public Prices {
    steps = List.copyOf(steps);
    check("money.price.perKg", perKg);
    for (int k = 0; k < steps.size(); k++) {
      String field = "money.price.steps[" + k + "]";
      check(field + ".perKg", steps.get(k).perKg());
      int least = k == 0 ? 2 : steps.get(k - 1).fromYear() + 1;
      if (steps.get(k).fromYear() < least || steps.get(k).fromYear() > Money.MOST_YEARS)
        throw new Refusal.OutOfRange(
            field + ".fromYear",
            steps.get(k).fromYear(),
            "between " + least + " and " + Money.MOST_YEARS + ", years rising");
    }
    if (saleablePercent != null && !(saleablePercent >= 0 && saleablePercent <= 100))
      throw new Refusal.OutOfRange(
          "money.price.saleablePercent", saleablePercent, "between 0 and 100 %");
    if (restPerKg != null) check("money.price.restPerKg", restPerKg);
  }

  /** One price for all fruit in all years. */
  public static Prices of(double perKg) {
    return new Prices(perKg, List.of(), null, null);
  }

  /** With another price, in all years; null keeps this one's. */
  public Prices withPerKg(@Nullable Double other) {
    return other == null ? this : new Prices(other, List.of(), saleablePercent, restPerKg);
  }

  /** Share of the crop that is sold as good fruit. */
  public double saleable() {
    return saleablePercent == null ? 1 : saleablePercent / 100;
  }

  /** Price of good fruit in a year. */
  public double perKgIn(int year) {
    double price = perKg;
    for (Step step : steps) if (step.fromYear() <= year) price = step.perKg();
    return price;
  }

  /** What a kilogram of the crop as it comes off the tree brings for its rest. */
  public double restPerBorneKg() {
    return restPerKg == null ? 0 : (1 - saleable()) * restPerKg;
  }

  /** What a kilogram of the crop as it comes off the tree brings in a year. */
  public double perBorneKg(int year) {
    return saleable() * perKgIn(year) + restPerBorneKg();
  }

  private static void check(String field, double sum) {
    if (!(sum >= 0 && sum <= Costs.MOST))
      throw new Refusal.OutOfRange(field, sum, "between 0 and 1000000000");
  }
}
