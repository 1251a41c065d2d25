package org.understock.economics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.understock.trait.Refusal;

/** Which prices and costs are taken, to the end of each range, and how percentiles are drawn. */
class MoneyTest {
  private static final List<String> COSTS =
      List.of(
          "treeEach",
          "plantingPerTree",
          "supportPerTree",
          "supportPerM",
          "guardEach",
          "irrigationPerM",
          "groundPerHa",
          "yearlyPerTree",
          "yearlyPerHa",
          "harvestPerKg",
          "grubbingPerTree",
          "grubbingPerHa");

  private static Costs costs(int which, double sum) {
    @Nullable Double[] c = new Double[COSTS.size()];
    c[which] = sum;
    return new Costs(c[0], c[1], c[2], c[3], c[4], c[5], c[6], c[7], c[8], c[9], c[10], c[11]);
  }

  private static void refused(String field, ThrowingCallable call) {
    assertThatThrownBy(call)
        .isInstanceOfSatisfying(
            Refusal.OutOfRange.class, r -> assertThat(r.field()).isEqualTo(field));
  }

  @Test
  void every_cost_is_held_to_its_range() {
    for (int k = 0; k < COSTS.size(); k++) {
      int which = k;
      costs(which, 0);
      costs(which, 1e9);
      refused("money.costs." + COSTS.get(which), () -> costs(which, -0.01));
      refused("money.costs." + COSTS.get(which), () -> costs(which, 1.001e9));
      refused("money.costs." + COSTS.get(which), () -> costs(which, Double.NaN));
    }
    assertThat(costs(11, 3).withTreeEach(5.0))
        .isEqualTo(new Costs(5.0, null, null, null, null, null, null, null, null, null, null, 3.0));
    assertThat(costs(0, 3).withTreeEach(null)).isEqualTo(costs(0, 3));
  }

  private static Prices steps(int... years) {
    return new Prices(
        1, Arrays.stream(years).mapToObj(y -> new Prices.Step(y, 2)).toList(), null, null);
  }

  @Test
  void prices_to_the_ends_of_their_ranges() {
    assertThat(Prices.of(0).perKgIn(1)).isZero();
    assertThat(Prices.of(1e9).perKgIn(60)).isEqualTo(1e9);
    refused("money.price.perKg", () -> Prices.of(1.001e9));
    assertThat(steps(2, 3, 60).perKgIn(2)).isEqualTo(2);
    assertThat(steps(2).perKgIn(1)).isEqualTo(1);
    refused("money.price.steps[0].fromYear", () -> steps(1));
    refused("money.price.steps[0].fromYear", () -> steps(61));
    refused(
        "money.price.steps[0].perKg",
        () -> new Prices(1, List.of(new Prices.Step(2, -1)), null, null));
    refused("money.price.restPerKg", () -> new Prices(1, List.of(), null, -1.0));
    assertThat(new Prices(1, List.of(), 0.0, 3.0).perBorneKg(1)).isEqualTo(3);
    assertThat(new Prices(1, List.of(), 100.0, 3.0).perBorneKg(1)).isEqualTo(1);
    refused("money.price.saleablePercent", () -> new Prices(1, List.of(), -1.0, null));
    Prices graded = new Prices(2, List.of(new Prices.Step(5, 3)), 80.0, 0.5);
    assertThat(graded.withPerKg(null)).isEqualTo(graded);
    assertThat(graded.withPerKg(4.0)).isEqualTo(new Prices(4, List.of(), 80.0, 0.5));
  }

  private static Money money(@Nullable String currency, int years, @Nullable Double discount) {
    return new Money(currency, years, discount, Prices.of(1), Costs.NONE, Money.End.GRUB);
  }

  @Test
  void reckoning_to_the_ends_of_its_ranges() {
    assertThat(money(null, 1, null).rate()).isZero();
    assertThat(money("crowns", 60, 4.0).rate()).isCloseTo(0.04, within(1e-15));
    assertThat(money(null, 20, -50.0).rate()).isEqualTo(-0.5);
    assertThat(money(null, 20, 100.0).rate()).isEqualTo(1);
    refused("money.horizonYears", () -> money(null, 0, null));
    refused("money.discountPercent", () -> money(null, 20, -50.1));
    refused("money.currency", () -> money(" ", 20, null));
    assertThatThrownBy(() -> money("x".repeat(21), 20, null)).isInstanceOf(Refusal.class);
    Money own = money("crowns", 20, 4.0).with(7.0, 8.0);
    assertThat(own.price()).isEqualTo(Prices.of(7));
    assertThat(own.costs().treeEach()).isEqualTo(8);
  }

  @Test
  void percentiles_of_draws_in_any_order() {
    double[] draws = new double[100];
    for (int d = 0; d < 100; d++) draws[d] = d * 37 % 100; // each of 0 to 99 once
    Spread spread = Spread.of(draws);
    assertThat(spread.low()).isCloseTo(9.5, within(1e-12));
    assertThat(spread.likely()).isCloseTo(49.5, within(1e-12));
    assertThat(spread.high()).isCloseTo(89.5, within(1e-12));
    assertThat(draws[1]).as("the draws are not changed").isEqualTo(37);
    // between neighbours: 0.25 * 10 - 0.5 lies on the third, 0.3 * 10 - 0.5 halfway to the next
    double[] ten = {0, 10, 20, 30, 40, 50, 60, 70, 80, 90};
    assertThat(Spread.percentile(ten, 0.25)).isCloseTo(20, within(1e-12));
    assertThat(Spread.percentile(ten, 0.32)).isCloseTo(27, within(1e-12));
    // beside what never comes, the nearer of the two
    double never = Double.POSITIVE_INFINITY;
    double[] half = {0, 1, 2, 3, 4, never, never, never, never, never};
    assertThat(Spread.percentile(half, 0.49)).isEqualTo(4);
    assertThat(Spread.percentile(half, 0.5)).isEqualTo(never);
    assertThat(Spread.percentile(half, 0.51)).isEqualTo(never);
  }

  @Test
  void rates_far_below_and_above_nothing() {
    // -100 and 1 after a year lose 99 %; -1 and 100 win 9 900 %
    assertThat(CashFlow.internalRate(new double[] {-100, 1}).getAsDouble())
        .isCloseTo(-0.99, within(1e-12));
    assertThat(CashFlow.internalRate(new double[] {-1, 100}).getAsDouble())
        .isCloseTo(99, within(1e-9));
    assertThat(CashFlow.internalRate(new double[] {-1, 1}).getAsDouble()).isZero();
    // what is paid nothing at first is the same undertaking begun later
    assertThat(CashFlow.internalRate(new double[] {0, 0, -100, 110}).getAsDouble())
        .isCloseTo(0.1, within(1e-12));
  }
}
