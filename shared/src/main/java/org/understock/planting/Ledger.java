package org.understock.planting;

import java.util.Arrays;
import java.util.BitSet;
import org.jspecify.annotations.Nullable;
import org.understock.economics.CashFlow;
import org.understock.economics.Costs;
import org.understock.economics.Money;
import org.understock.economics.Prices;
import org.understock.growth.Expectations;
import org.understock.growth.SupportNeed;

/**
 * A planting's kilograms and payments, year by year in every draw of {@link Years}.
 *
 * <p>Trees stand to the whole year nearest to the end of their life. Then they are grubbed, so that
 * ages past the productive life bear and cost nothing, and, where the asker says so, planted again.
 * What is reckoned by the metre or the hectare falls on the pairings by their shares of the trees.
 */
final class Ledger {
  private static final double M2_PER_HA = 10_000;

  /** What is reckoned where no money is given: only kilograms. */
  private static final Money NOTHING =
      new Money(null, 1, null, Prices.of(0), Costs.NONE, Money.End.GRUB);

  private final PlantingPlan plan;
  private final Money money;
  private final int horizon;
  private final int all;

  /** Kilograms borne, by year (0 stays empty) and draw. */
  final double[][] kg;

  /** Payments, by year and draw. */
  final double[][] cash;

  /** Worth today, by draw. */
  final double[] worth;

  /** Equal yearly payment while the planting stands, by draw. */
  final double[] annuity;

  /** Years in which the planting stands within the horizon, by draw. */
  final int[] standing;

  /** Price of good fruit at which the worth is 0, by draw; infinite where none is sold. */
  final double[] breakEven;

  /** Draws in which trees stand beyond the horizon. */
  final BitSet beyond = new BitSet();

  Ledger(PlantingPlan plan, Years years, @Nullable Money given, int horizon) {
    this.plan = plan;
    this.money = given == null ? NOTHING : given;
    this.horizon = horizon;
    all = plan.trees().size();
    int draws = Years.draws();
    kg = new double[horizon + 1][draws];
    cash = new double[horizon + 1][draws];
    worth = new double[draws];
    annuity = new double[draws];
    standing = new int[draws];
    breakEven = new double[draws];
    double[] perKg = new double[horizon + 1];
    Prices price = money.price();
    for (int t = 1; t <= horizon; t++) {
      perKg[t] = price.perBorneKg(t) - sum(money.costs().harvestPerKg());
    }
    for (int k = 0; k < plan.order().size(); k++) {
      if (plan.order().get(k).count() > 0) enter(k, years, perKg);
    }
    for (int d = 0; d < draws; d++) close(d);
  }

  private void enter(int k, Years years, double[] perKg) {
    int count = plan.order().get(k).count();
    double outlay = outlay(k);
    double yearly =
        count * sum(money.costs().yearlyPerTree()) + ha(k) * sum(money.costs().yearlyPerHa());
    double grubbing =
        count * sum(money.costs().grubbingPerTree()) + ha(k) * sum(money.costs().grubbingPerHa());
    for (int d = 0; d < worth.length; d++) {
      Expectations.Course tree = years.course(k, d);
      int last = tree.lastYear();
      int planted = 0;
      cash[0][d] -= outlay;
      for (int t = 1; t <= horizon; t++) {
        double crop = count * tree.cropKg(t - planted);
        kg[t][d] += crop;
        cash[t][d] += crop * perKg[t] - yearly;
        standing[d] = Math.max(standing[d], t);
        if (t - planted < last) continue;
        cash[t][d] -= grubbing;
        if (money.atEndOfLife() == Money.End.GRUB || t == horizon) {
          planted = -1;
          break;
        }
        cash[t][d] -= outlay;
        planted = t;
      }
      if (planted >= 0) beyond.set(d);
    }
  }

  private void close(int draw) {
    double rate = money.rate();
    double[] flow = flow(draw);
    double[] sold = new double[horizon + 1];
    double[] rest = new double[horizon + 1];
    for (int t = 0; t <= horizon; t++) {
      sold[t] = kg[t][draw] * money.price().saleable();
      rest[t] = flow[t] - (t == 0 ? 0 : sold[t] * money.price().perKgIn(t));
    }
    worth[draw] = CashFlow.presentValue(flow, rate);
    annuity[draw] = CashFlow.annuity(worth[draw], rate, standing[draw]);
    double soldToday = CashFlow.presentValue(sold, rate);
    breakEven[draw] =
        soldToday > 0
            ? Math.max(0, -CashFlow.presentValue(rest, rate) / soldToday)
            : Double.POSITIVE_INFINITY;
  }

  /** The payments of one draw. */
  double[] flow(int draw) {
    double[] flow = new double[horizon + 1];
    for (int t = 0; t <= horizon; t++) flow[t] = cash[t][draw];
    return flow;
  }

  /** What it costs to plant one pairing's trees. */
  private double outlay(int k) {
    Costs costs = money.costs();
    PlantingPlan.Ordered order = plan.order().get(k);
    PlantingPlan.Materials materials = plan.materials();
    double share = order.count() / (double) all;
    double sum = (order.count() + order.spare()) * sum(costs.treeEach());
    sum += order.count() * sum(costs.plantingPerTree());
    sum += supported(plan, k) * sum(costs.supportPerTree());
    sum += share * wiredM(plan) * sum(costs.supportPerM());
    sum += share * materials.guards() * sum(costs.guardEach());
    sum += share * materials.dripLineM() * sum(costs.irrigationPerM());
    return sum + ha(k) * sum(costs.groundPerHa());
  }

  /** Ground that falls on one pairing, in ha. */
  private double ha(int k) {
    return plan.plot().areaM2() / M2_PER_HA * plan.order().get(k).count() / all;
  }

  /** Trees of a pairing that need a support: all on wires, else those that do not stand alone. */
  static int supported(PlantingPlan plan, int k) {
    if (plan.materials().wires() > 0) return plan.order().get(k).count();
    SupportNeed.Level level = plan.pairings().get(k).expectations().support().likely();
    return level == SupportNeed.Level.UNTIL_ESTABLISHED || level == SupportNeed.Level.PERMANENT
        ? plan.order().get(k).count()
        : 0;
  }

  /** Metres of row on wires. */
  static double wiredM(PlantingPlan plan) {
    return plan.materials().wires() > 0 ? plan.materials().dripLineM() : 0;
  }

  private static double sum(@Nullable Double given) {
    return given == null ? 0 : given;
  }

  /** Kilograms by draw, of all years together. */
  double[] totalKg() {
    double[] total = new double[worth.length];
    for (double[] year : kg) for (int d = 0; d < total.length; d++) total[d] += year[d];
    return total;
  }

  /** Sums from the first year to each, by year and draw. */
  static double[][] running(double[][] yearly) {
    double[][] sums = new double[yearly.length][];
    sums[0] = yearly[0].clone();
    for (int t = 1; t < sums.length; t++) {
      sums[t] = Arrays.copyOf(sums[t - 1], sums[t - 1].length);
      for (int d = 0; d < sums[t].length; d++) sums[t][d] += yearly[t][d];
    }
    return sums;
  }
}
