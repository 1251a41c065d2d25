package org.understock.planting;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.understock.advice.Adviser;
import org.understock.economics.CashFlow;
import org.understock.economics.Costs;
import org.understock.economics.Money;
import org.understock.economics.Prices;
import org.understock.economics.Spread;
import org.understock.evidence.CompiledTraitBook;
import org.understock.growth.Expectations;
import org.understock.migrations.StarterEvidence;
import org.understock.planting.PlantingQuestion.Wanted;
import org.understock.site.Goal;
import org.understock.site.Site;

/** What plantings cost and bring: each draw by hand, and laws. Prices are invented. */
class AccountTest {
  private static final Adviser ADVISER =
      Adviser.of(CompiledTraitBook.compile(1, StarterEvidence.read().evidence()));
  private static final PlantingPlan PLAN = plan(30, 40, Layout.USUAL);
  private static final Years YEARS = Years.of(PLAN);
  private static final Costs COSTS =
      new Costs(9.0, 3.0, 4.0, 2.5, 1.0, 0.8, 600.0, 5.0, 900.0, 0.2, 2.0, 300.0);

  @Test
  void one_draw_by_hand() {
    Ledger ledger = new Ledger(PLAN, YEARS, money(1.5, 6.0, Money.End.GRUB, COSTS), 40);
    int n = PLAN.trees().size();
    double ha = 0.12;
    double outlay =
        (n + PLAN.order().get(0).spare()) * 9.0
            + n * 3.0
            + Ledger.supported(PLAN, 0) * 4.0
            + n * 1.0
            + PLAN.materials().dripLineM() * 0.8
            + ha * 600;
    for (int d = 0; d < 4000; d += 397) {
      Expectations.Course tree = YEARS.course(0, d);
      double[] flow = new double[41];
      flow[0] = -outlay;
      for (int t = 1; t <= Math.min(40, tree.lastYear()); t++) {
        flow[t] = n * tree.cropKg(t) * (1.5 - 0.2) - n * 5.0 - ha * 900;
        if (t == tree.lastYear()) flow[t] -= n * 2.0 + ha * 300;
      }
      assertThat(ledger.flow(d)).containsExactly(flow, within(1e-6));
      assertThat(ledger.worth[d]).isCloseTo(CashFlow.presentValue(flow, 0.06), within(1e-6));
      assertThat(ledger.standing[d]).isEqualTo(Math.min(40, tree.lastYear()));
      assertThat(ledger.annuity[d] * CashFlow.annuityFactor(0.06, ledger.standing[d]))
          .isCloseTo(ledger.worth[d], within(1e-6));
    }
  }

  @Test
  void at_the_price_that_breaks_even_nothing_is_left() {
    Account account = Account.of(PLAN, YEARS, money(1.5, 6.0, Money.End.GRUB, COSTS));
    double even = Objects.requireNonNull(account.breakEvenPerKg().likely());
    Account there = Account.of(PLAN, YEARS, money(even, 6.0, Money.End.GRUB, COSTS));
    assertThat(there.chanceOfGain()).isCloseTo(0.5, within(0.001));
    assertThat(there.netPresentValue().likely()).isCloseTo(0, within(0.002 * account.outlaySum()));
  }

  @Test
  void a_higher_price_never_lowers_the_worth_nor_delays_the_payback() {
    Ledger last = null;
    Account before = null;
    for (double price : new double[] {0, 0.4, 0.8, 1.2, 2, 5}) {
      Money money = money(price, 5.0, Money.End.REPLANT, COSTS);
      Ledger ledger = new Ledger(PLAN, YEARS, money, 40);
      Account account = Account.of(PLAN, money, ledger);
      if (last != null && before != null) {
        for (int d = 0; d < ledger.worth.length; d++)
          assertThat(ledger.worth[d]).isGreaterThanOrEqualTo(last.worth[d]);
        assertThat(account.chancePaidBack()).isGreaterThanOrEqualTo(before.chancePaidBack());
        assertThat(year(account.paybackYear().likely()))
            .isLessThanOrEqualTo(year(before.paybackYear().likely()));
        assertThat(year(account.paybackYear().high()))
            .isLessThanOrEqualTo(year(before.paybackYear().high()));
      }
      last = ledger;
      before = account;
    }
    assertThat(year(Objects.requireNonNull(before).paybackYear().likely())).isLessThan(15);
  }

  private static double year(@Nullable Double year) {
    return year == null ? 1000 : year;
  }

  @Test
  void without_discount_the_worth_is_the_sum_and_without_costs_it_is_what_is_sold() {
    Ledger bare = new Ledger(PLAN, YEARS, money(2, 0.0, Money.End.GRUB, Costs.NONE), 30);
    double[] kg = bare.totalKg();
    for (int d = 0; d < kg.length; d++)
      assertThat(bare.worth[d]).isCloseTo(2 * kg[d], within(1e-6 * (1 + kg[d])));
    Account account = Account.of(PLAN, YEARS, money(2, null, Money.End.GRUB, Costs.NONE));
    assertThat(account.outlay()).isEmpty();
    assertThat(account.paybackYear().likely()).isZero();
    assertThat(account.noInternalRate()).contains("nothing is paid out");
    assertThat(account.uncounted())
        .extracting(Account.Note::field)
        .contains("money.costs.treeEach", "money.costs.harvestPerKg", "money.costs.yearlyPerHa");
    assertThat(account.assumed())
        .extracting(Account.Note::field)
        .contains("money.discountPercent", "money.price.saleablePercent");
  }

  @Test
  void twice_the_trees_on_twice_the_ground_are_twice_the_money() {
    // two rows of trees that stand alone, the same rows twice as long: ground and metres of row
    // are not exactly twice, so only what goes by the tree and the kilogram is charged
    Costs perTree = new Costs(9.0, 3.0, 4.0, null, 1.0, null, null, 5.0, null, 0.2, 2.0, null);
    PlantingPlan other = plan(60, 40, Layout.USUAL);
    Money money = money(1.5, 6.0, Money.End.GRUB, perTree);
    Account small = Account.of(PLAN, YEARS, money);
    Account large = Account.of(other, Years.of(other), money);
    double times = other.trees().size() / (double) PLAN.trees().size();
    double spare = (other.order().get(0).spare() - times * PLAN.order().get(0).spare()) * 9.0;
    assertThat(times).isGreaterThan(1.8);
    assertThat(large.netPresentValue().likely())
        .isCloseTo(
            times * Objects.requireNonNull(small.netPresentValue().likely()) - spare,
            within(1e-6 * large.outlaySum()));
    assertThat(large.breakEvenPerKg().likely())
        .isCloseTo(Objects.requireNonNull(small.breakEvenPerKg().likely()), within(0.01));
  }

  @Test
  void trees_past_their_life_bear_and_cost_nothing_or_are_planted_again() {
    Ledger grubbed = new Ledger(PLAN, YEARS, money(1, 0.0, Money.End.GRUB, COSTS), 60);
    Ledger again = new Ledger(PLAN, YEARS, money(1, 0.0, Money.End.REPLANT, COSTS), 60);
    for (int d = 0; d < 4000; d += 173) {
      int last = YEARS.course(0, d).lastYear();
      for (int t = last + 1; t <= 60; t++) {
        assertThat(grubbed.kg[t][d]).isZero();
        assertThat(grubbed.cash[t][d]).isZero();
        if (t > 2 * last) continue;
        assertThat(again.kg[t][d]).isEqualTo(grubbed.kg[t - last][d]);
      }
      if (last < 60)
        assertThat(again.cash[last][d])
            .isCloseTo(grubbed.cash[last][d] + grubbed.cash[0][d], within(1e-6));
    }
  }

  @Test
  void the_account_can_be_read_aloud() {
    Account account = Account.of(PLAN, YEARS, money(1.5, 5.0, Money.End.GRUB, COSTS));
    assertThat(account.text())
        .contains("To plant costs")
        .contains("crowns")
        .contains("paid back by the end of year")
        .contains("breaks even at")
        .doesNotContain("NaN")
        .doesNotContain("null");
    System.out.println(account.text());
    Account poor = Account.of(PLAN, YEARS, money(0.1, 5.0, Money.End.GRUB, COSTS));
    assertThat(poor.text()).contains("not pay back within 40 years");
    System.out.println(poor.text());
    assertThat(account.years()).hasSize(41);
    assertThat(account.years().get(0).cash()).isEqualTo(flat(-account.outlaySum()));
  }

  private static Spread flat(double x) {
    return Spread.of(java.util.stream.DoubleStream.generate(() -> x).limit(100).toArray());
  }

  /**
   * 'Golden Delicious' on M.9 in a planting system trial of 1962: at 1100 trees/ha yields levelled
   * off at about 40 t/ha, at 3300 they came to about 75 t/ha in the sixth and seventh year
   * (abstract of "Yield-density relations for apple trees on a dwarfing and a semi-dwarfing
   * rootstock", Netherlands Journal of Agricultural Science). Pooled expectations of a full
   * planting have to lie about the level that the lasting densities gave.
   */
  @Test
  void yields_of_a_full_planting_lie_where_a_density_trial_found_them() {
    PlantingPlan plan = plan(100, 100, Layout.USUAL, new Wanted("m-9", "golden-delicious", 1.0));
    Years years = Years.of(plan);
    double[] tenth = new Ledger(plan, years, null, 10).kg[10].clone();
    Spread tPerHa = Spread.of(java.util.Arrays.stream(tenth).map(kg -> kg / 1000).toArray());
    System.out.println(plan.trees().size() + " trees/ha, t/ha in year 10: " + tPerHa);
    assertThat(tPerHa.low()).isLessThan(40);
    assertThat(tPerHa.likely()).isBetween(25.0, 55.0);
    assertThat(tPerHa.high()).isBetween(40.0, 100.0);
  }

  private static Money money(double price, @Nullable Double discount, Money.End end, Costs costs) {
    return new Money(
        "crowns", costs == Costs.NONE ? 30 : 40, discount, Prices.of(price), costs, end);
  }

  private static PlantingPlan plan(double width, double length, Layout layout) {
    return plan(width, length, layout, new Wanted("m-26", "gala", 1.0));
  }

  static PlantingPlan plan(double width, double length, Layout layout, Wanted... trees) {
    return Planner.of(ADVISER)
        .plan(
            new PlantingQuestion(
                Plot.rectangle(width, length, null),
                layout,
                List.of(trees),
                Site.UNKNOWN,
                Goal.UNKNOWN,
                PollenRule.USUAL,
                4));
  }
}
