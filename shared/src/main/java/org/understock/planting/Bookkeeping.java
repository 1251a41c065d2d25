package org.understock.planting;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.jspecify.annotations.Nullable;
import org.understock.economics.CashFlow;
import org.understock.economics.Costs;
import org.understock.economics.Money;
import org.understock.economics.Spread;
import org.understock.planting.Account.Item;
import org.understock.planting.Account.Note;
import org.understock.planting.Account.Year;

/** Draws up the account of a ledger. */
final class Bookkeeping {
  /** Above so many draws without one clear internal rate none is given; a judgement. */
  private static final double MOST_UNCLEAR = 0.05;

  private Bookkeeping() {}

  static Account close(PlantingPlan plan, Money money, Ledger ledger) {
    List<Item> outlay = outlay(plan, money.costs());
    double[][] running = Ledger.running(ledger.cash);
    List<Year> years = new ArrayList<>();
    for (int t = 0; t < running.length; t++) {
      years.add(
          new Year(t, Spread.of(ledger.kg[t]), Spread.of(ledger.cash[t]), Spread.of(running[t])));
    }
    int draws = ledger.worth.length;
    double[] payback = new double[draws];
    double[] rates = new double[draws];
    int unclear = 0;
    for (int d = 0; d < draws; d++) {
      double[] flow = ledger.flow(d);
      OptionalInt paid = CashFlow.paybackYear(flow);
      payback[d] = paid.isPresent() ? paid.getAsInt() : Double.POSITIVE_INFINITY;
      OptionalDouble rate = CashFlow.internalRate(flow);
      if (rate.isPresent()) rates[d] = 100 * rate.getAsDouble();
      else if (flow[0] < 0 && Arrays.stream(flow).sum() < 0) rates[d] = Double.NEGATIVE_INFINITY;
      else unclear++;
    }
    boolean rated = unclear <= MOST_UNCLEAR * draws;
    double outlaySum = outlay.stream().mapToDouble(Item::sum).sum();
    Account bare =
        new Account(
            money,
            outlay,
            outlaySum,
            years,
            wholeYears(payback),
            share(payback, x -> x <= money.horizonYears()),
            Spread.of(ledger.worth),
            share(ledger.worth, x -> x > 0),
            Spread.of(ledger.annuity),
            rated ? Spread.of(rates) : null,
            rated
                ? null
                : outlaySum > 0
                    ? "money goes out again after it has come in, so that no single rate says what the planting yields; go by the annuity"
                    : "nothing is paid out at the beginning by the costs that were given",
            Spread.of(ledger.breakEven),
            wholeYears(Arrays.stream(ledger.standing).asDoubleStream().toArray()),
            ledger.beyond.cardinality() / (double) draws,
            assumed(plan, money, ledger.beyond.cardinality() / (double) draws),
            uncounted(money.costs()),
            "");
    return new Account(
        bare.money(),
        bare.outlay(),
        bare.outlaySum(),
        bare.years(),
        bare.paybackYear(),
        bare.chancePaidBack(),
        bare.netPresentValue(),
        bare.chanceOfGain(),
        bare.annuity(),
        bare.internalRatePercent(),
        bare.noInternalRate(),
        bare.breakEvenPerKg(),
        bare.standingYears(),
        bare.chanceBeyond(),
        bare.assumed(),
        bare.uncounted(),
        Sums.account(bare));
  }

  /** Percentiles of whole years, as whole years. */
  private static Spread wholeYears(double[] draws) {
    double[] sorted = draws.clone();
    Arrays.sort(sorted);
    return new Spread(year(sorted, 0.1), year(sorted, 0.5), year(sorted, 0.9));
  }

  private static @Nullable Double year(double[] sorted, double p) {
    double year = sorted[(int) Math.ceil(p * sorted.length) - 1];
    return Double.isFinite(year) ? Double.valueOf(year) : null;
  }

  private static double share(double[] draws, java.util.function.DoublePredicate in) {
    return Arrays.stream(draws).filter(in).count() / (double) draws.length;
  }

  private static List<Item> outlay(PlantingPlan plan, Costs costs) {
    int planted = plan.trees().size();
    int spare = plan.order().stream().mapToInt(PlantingPlan.Ordered::spare).sum();
    int supported = 0;
    for (int k = 0; k < plan.order().size(); k++) supported += Ledger.supported(plan, k);
    List<Item> items = new ArrayList<>();
    add(items, "trees, with the spare ones", planted + spare, costs.treeEach());
    add(items, "planting, per tree", planted, costs.plantingPerTree());
    add(items, "support of the trees that need it", supported, costs.supportPerTree());
    add(items, "wires with their posts, per m of row", Ledger.wiredM(plan), costs.supportPerM());
    add(items, "tree guards", plan.materials().guards(), costs.guardEach());
    add(items, "drip line, per m", plan.materials().dripLineM(), costs.irrigationPerM());
    add(items, "making the ground ready, per ha", plan.plot().areaM2() / 1e4, costs.groundPerHa());
    return items;
  }

  private static void add(List<Item> items, String text, double count, @Nullable Double each) {
    if (each != null && count > 0) items.add(new Item(text, count, each, count * each));
  }

  private static List<Note> assumed(PlantingPlan plan, Money money, double beyond) {
    List<Note> notes = new ArrayList<>();
    if (money.discountPercent() == null)
      notes.add(
          new Note(
              "money.discountPercent",
              "No discount rate was given: a sum in twenty years counts as much as one today, which favours late crops."));
    if (money.price().saleablePercent() == null)
      notes.add(
          new Note(
              "money.price.saleablePercent",
              "All that the trees bear is taken as sold at the price. Some of every crop is not; give the share that is."));
    else if (money.price().saleablePercent() < 100 && money.price().restPerKg() == null)
      notes.add(
          new Note(
              "money.price.restPerKg", "Fruit that is not sold as good fruit brings nothing."));
    if (money.costs().supportPerM() != null && Ledger.wiredM(plan) == 0)
      notes.add(
          new Note(
              "money.costs.supportPerM",
              "This planting has no wires, so the cost of wires is not charged to it."));
    if (beyond > 0.005)
      notes.add(
          new Note(
              "money.horizonYears",
              "In "
                  + Sums.inHundred(beyond)
                  + " trees still stand at the end of year "
                  + money.horizonYears()
                  + "; what they bear after it, and grubbing them, is not counted. A longer horizon counts it."));
    notes.add(
        new Note(
            "money.atEndOfLife",
            money.atEndOfLife() == Money.End.GRUB
                ? "Trees are grubbed when their life ends and nothing follows them; the annuity is over the years that they stand."
                : "Trees are grubbed when their life ends and the same are planted again at once, at the full cost of the beginning; new trees on old ground may fare worse."));
    return notes;
  }

  private static List<Note> uncounted(Costs costs) {
    List<Note> notes = new ArrayList<>();
    missing(notes, costs.treeEach(), "treeEach", "the trees");
    missing(notes, costs.plantingPerTree(), "plantingPerTree", "the labour of planting");
    if (costs.supportPerTree() == null && costs.supportPerM() == null)
      missing(notes, null, "supportPerTree", "stakes, posts and wires");
    missing(notes, costs.guardEach(), "guardEach", "tree guards");
    missing(notes, costs.irrigationPerM(), "irrigationPerM", "irrigation");
    missing(notes, costs.groundPerHa(), "groundPerHa", "making the ground ready");
    if (costs.yearlyPerTree() == null && costs.yearlyPerHa() == null)
      missing(notes, null, "yearlyPerHa", "pruning, mowing, plant protection and all yearly care");
    missing(notes, costs.harvestPerKg(), "harvestPerKg", "picking, sorting and selling");
    if (costs.grubbingPerTree() == null && costs.grubbingPerHa() == null)
      missing(notes, null, "grubbingPerTree", "grubbing at the end");
    return notes;
  }

  private static void missing(List<Note> notes, @Nullable Double given, String field, String what) {
    if (given == null)
      notes.add(
          new Note("money.costs." + field, "Not counted, as no cost was given: " + what + "."));
  }
}
