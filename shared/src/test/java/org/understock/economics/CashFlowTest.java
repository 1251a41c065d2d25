package org.understock.economics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.understock.trait.Refusal;

/** The arithmetic of payments against published figures, and its laws. */
class CashFlowTest {
  /** Solutions to chapter 8, net present value and other criteria, of a finance textbook. */
  private static final double[] PROJECT_A = {-200, 80, 80, 80, 80};

  private static final double[] PROJECT_B = {-200, 100, 100, 100};

  @Test
  void present_values_of_a_textbook() {
    assertThat(CashFlow.presentValue(PROJECT_A, 0.11)).isCloseTo(48.20, within(0.005));
    assertThat(CashFlow.presentValue(PROJECT_B, 0.11)).isCloseTo(44.37, within(0.005));
    assertThat(CashFlow.presentValue(PROJECT_A, 0.16)).isCloseTo(23.85, within(0.005));
    assertThat(CashFlow.presentValue(PROJECT_B, 0.16)).isCloseTo(24.59, within(0.005));
  }

  @Test
  void present_value_of_the_numpy_financial_manual() {
    // npv(0.08, [-40000, 5000, 8000, 12000, 30000]), the function's example, from memory
    assertThat(CashFlow.presentValue(new double[] {-40000, 5000, 8000, 12000, 30000}, 0.08))
        .isCloseTo(3065.22267, within(1e-5));
  }

  @Test
  void internal_rates_of_the_numpy_manual() {
    // numpy.irr, documentation of NumPy 1.16, examples; the one of two sign changes whose running
    // sum never comes above 0 has no single rate
    assertThat(CashFlow.internalRate(new double[] {-100, 39, 59, 55, 20}).getAsDouble())
        .isCloseTo(0.2809484211599611, within(1e-10));
    assertThat(CashFlow.internalRate(new double[] {-100, 0, 0, 74}).getAsDouble())
        .isCloseTo(-0.0955, within(5e-5));
    assertThat(CashFlow.internalRate(new double[] {-100, 100, 0, 7}).getAsDouble())
        .isCloseTo(0.06206, within(5e-6));
    assertThat(CashFlow.internalRate(new double[] {-100, 100, 0, -7})).isEmpty();
  }

  @Test
  void internal_rates_of_a_textbook() {
    assertThat(CashFlow.internalRate(PROJECT_A).getAsDouble()).isCloseTo(0.2186, within(5e-5));
    assertThat(CashFlow.internalRate(PROJECT_B).getAsDouble()).isCloseTo(0.2338, within(5e-5));
  }

  @Test
  void an_internal_rate_is_given_only_where_there_is_one() {
    // two rates, 0 and 100 %: (1 - x)(1 - 2x) with x = 1 / (1 + rate)
    assertThat(CashFlow.internalRate(new double[] {-1, 3, -2})).isEmpty();
    assertThat(CashFlow.internalRate(new double[] {0, 5, 5})).isEmpty();
    assertThat(CashFlow.internalRate(new double[] {-5, -5})).isEmpty();
    assertThat(CashFlow.internalRate(new double[] {0, 0})).isEmpty();
    // a small cost at the end leaves one rate above 0 where the running sum stays above 0
    double rate = CashFlow.internalRate(new double[] {-100, 60, 60, 60, -10}).getAsDouble();
    assertThat(CashFlow.presentValue(new double[] {-100, 60, 60, 60, -10}, rate))
        .isCloseTo(0, within(1e-9));
  }

  @Test
  void annuities_of_machines_of_different_life() {
    // Touro College, Corporate Finance, question 2 on replacement chains: A for 3 years, B for 6,
    // at 14 %; the printed figures come from factors of four digits
    double a = CashFlow.presentValue(new double[] {-190_000, 87_000, 87_000, 87_000}, 0.14);
    assertThat(a).isCloseTo(11_979, within(5.0));
    assertThat(CashFlow.annuity(a, 0.14, 3)).isCloseTo(5_159.89, within(2.0));
    double[] flow = {-360_000, 98_300, 98_300, 98_300, 98_300, 98_300, 98_300};
    double b = CashFlow.presentValue(flow, 0.14);
    assertThat(b).isCloseTo(22_259, within(5.0));
    assertThat(CashFlow.annuity(b, 0.14, 6)).isCloseTo(5_724.07, within(2.0));
    // A begun again after three years has the same annuity over six
    double again = a + a / Math.pow(1.14, 3);
    assertThat(CashFlow.annuity(again, 0.14, 6))
        .isCloseTo(CashFlow.annuity(a, 0.14, 3), within(1e-9));
  }

  @Test
  void annuity_factors() {
    // interest tables: 10 %, 8 years 5.3349; 14 %, 3 years 2.3216, 6 years 3.8887
    assertThat(CashFlow.annuityFactor(0.10, 8)).isCloseTo(5.3349262, within(5e-8));
    assertThat(CashFlow.annuityFactor(0.14, 3)).isCloseTo(2.3216, within(5e-5));
    assertThat(CashFlow.annuityFactor(0.14, 6)).isCloseTo(3.8887, within(5e-5));
    assertThat(CashFlow.annuityFactor(0, 7)).isEqualTo(7);
    assertThat(CashFlow.annuityFactor(1e-9, 7)).isCloseTo(7, within(1e-7));
    assertThat(CashFlow.annuityFactor(-0.5, 2)).isCloseTo(2 + 4, within(1e-12));
    assertThatThrownBy(() -> CashFlow.annuityFactor(0.1, 0))
        .isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void paybacks() {
    // the textbook's answers: A after 2.5 years, thus by the end of the third; B after 2
    assertThat(CashFlow.paybackYear(PROJECT_A)).hasValue(3);
    assertThat(CashFlow.paybackYear(PROJECT_B)).hasValue(2);
    assertThat(CashFlow.paybackYear(new double[] {-10, 3, 3})).isEmpty();
    assertThat(CashFlow.paybackYear(new double[] {0, 1})).hasValue(0);
    assertThat(CashFlow.paybackYear(new double[] {-0.3, 0.1, 0.1, 0.1})).hasValue(3);
  }

  @Test
  void laws() {
    SplittableRandom random = new SplittableRandom(7);
    for (int run = 0; run < 500; run++) {
      double[] flow = random.doubles(2 + random.nextInt(40), -100, 100).toArray();
      double[] more = flow.clone();
      for (int t = 1; t < more.length; t++) more[t] += random.nextDouble(10);
      double rate = random.nextDouble(-0.3, 0.5);
      double sum = 0;
      for (double x : flow) sum += x;
      assertThat(CashFlow.presentValue(flow, 0)).isCloseTo(sum, within(1e-9));
      assertThat(CashFlow.cumulative(flow)[flow.length - 1]).isCloseTo(sum, within(1e-9));
      assertThat(CashFlow.presentValue(more, rate))
          .isGreaterThanOrEqualTo(CashFlow.presentValue(flow, rate));
      int soon = CashFlow.paybackYear(more).orElse(1000);
      assertThat(soon).isLessThanOrEqualTo(CashFlow.paybackYear(flow).orElse(1000));
      CashFlow.internalRate(flow)
          .ifPresent(
              r ->
                  assertThat(CashFlow.presentValue(flow, r) / 100)
                      .isCloseTo(0, within(1e-6 * Math.max(1, Math.pow(1 + r, -flow.length)))));
    }
  }

  @Test
  void percentiles_say_where_there_is_none() {
    double[] draws = new double[100];
    for (int d = 0; d < 100; d++) draws[d] = d < 60 ? d : Double.POSITIVE_INFINITY;
    Spread spread = Spread.of(draws);
    assertThat(spread.low()).isCloseTo(9.5, within(1e-12));
    assertThat(spread.likely()).isCloseTo(49.5, within(1e-12));
    assertThat(spread.high()).isNull();
  }

  @Test
  void prices_by_year_and_grade() {
    Prices price = new Prices(2, List.of(new Prices.Step(5, 3)), 80.0, 0.5);
    assertThat(price.perBorneKg(4)).isCloseTo(0.8 * 2 + 0.2 * 0.5, within(1e-12));
    assertThat(price.perBorneKg(5)).isCloseTo(0.8 * 3 + 0.2 * 0.5, within(1e-12));
    refused("money.price.perKg", () -> Prices.of(-1));
    refused("money.price.perKg", () -> Prices.of(Double.NaN));
    refused("money.price.saleablePercent", () -> new Prices(1, List.of(), 101.0, null));
    refused(
        "money.price.steps[1].fromYear",
        () -> new Prices(1, List.of(new Prices.Step(5, 3), new Prices.Step(5, 3)), null, null));
    refused("money.discountPercent", () -> money(-100.0, 20));
    refused("money.discountPercent", () -> money(101.0, 20));
    refused("money.horizonYears", () -> money(5.0, 61));
    refused("money.costs.treeEach", () -> Costs.NONE.withTreeEach(-2.0));
  }

  private static void money(double discountPercent, int years) {
    new Money(null, years, discountPercent, Prices.of(1), Costs.NONE, Money.End.GRUB);
  }

  private static void refused(
      String field, org.assertj.core.api.ThrowableAssert.ThrowingCallable call) {
    assertThatThrownBy(call)
        .isInstanceOfSatisfying(
            Refusal.OutOfRange.class, r -> assertThat(r.field()).isEqualTo(field));
  }
}
