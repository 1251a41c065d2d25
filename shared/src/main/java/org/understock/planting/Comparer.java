package org.understock.planting;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.understock.advice.Advice;
import org.understock.advice.Adviser;
import org.understock.advice.Candidates;
import org.understock.advice.Question;
import org.understock.advice.Units;
import org.understock.economics.Money;
import org.understock.economics.Spread;
import org.understock.planting.Comparison.Compared;
import org.understock.planting.Comparison.NotPlanted;
import org.understock.planting.Comparison.Parting;
import org.understock.planting.ComparisonQuestion.Named;
import org.understock.trait.Refusal;

/**
 * Plants one plot with each of several pairings and holds the plantings against each other. Draws
 * of the same number go together, so that a good year of a stock is good for every planting on it.
 */
public final class Comparer {
  private final Adviser adviser;
  private final Planner planner;

  private Comparer(Adviser adviser) {
    this.adviser = adviser;
    planner = Planner.of(adviser);
  }

  public static Comparer of(Adviser adviser) {
    return new Comparer(adviser);
  }

  /** One planting while it is reckoned. */
  private record Entry(
      PlantingPlan plan,
      Years years,
      @Nullable Account account,
      List<Spread> kg,
      List<Spread> cumulativeKg,
      double[] totalKg,
      double[] measure,
      double[] end) {}

  /**
   * @throws Refusal.Unknown for a stock or variety that is not known
   * @throws Refusal.Conflict when fewer than one pairing can be planted
   */
  public Comparison compare(ComparisonQuestion question) {
    Chosen chosen =
        question.pairings().isEmpty() ? advised(question) : new Chosen(checked(question), 0);
    checkPartners(question);
    List<Entry> entries = new ArrayList<>();
    List<NotPlanted> left = new ArrayList<>();
    Refusal first = null;
    for (Named pairing : chosen.pairings()) {
      try {
        entries.add(entry(question, pairing));
      } catch (Refusal.Conflict refusal) {
        if (first == null) first = refusal;
        left.add(new NotPlanted(names(pairing), refusal.getMessage()));
      }
    }
    if (entries.isEmpty()) {
      String why = first == null ? "nothing was left to plant" : first.getMessage();
      String field =
          first == null || first.field().startsWith("trees") ? "pairings" : first.field();
      throw new Refusal.Conflict(field, "none of the pairings can be planted here: " + why);
    }
    return compared(question, entries, left, chosen.judged());
  }

  /** What is to be compared, and how many pairings were judged to choose it. */
  private record Chosen(List<Named> pairings, int judged) {}

  /** What advice puts first. */
  private Chosen advised(ComparisonQuestion question) {
    Question asked =
        new Question(
            Objects.requireNonNull(question.crop()),
            question.site(),
            question.goal(),
            new Candidates(question.stocks(), question.varieties(), List.of()),
            question.most(),
            question.bestPer(),
            Units.METRIC);
    Advice advice = adviser.advise(asked);
    List<Named> best =
        advice.pairings().stream()
            .map(a -> new Named(a.stock().id(), a.variety().id(), null, null))
            .toList();
    if (best.isEmpty())
      throw new Refusal.Conflict(
          "candidates",
          "advice rules every candidate out for this place and goal; ask for advice to see why, or name the pairings");
    return new Chosen(best, advice.considered());
  }

  /** Named pairings, each known and named once. */
  private List<Named> checked(ComparisonQuestion question) {
    Set<String> seen = new HashSet<>();
    for (int k = 0; k < question.pairings().size(); k++) {
      Named named = question.pairings().get(k);
      String field = "pairings[" + k + "]";
      var pairing =
          adviser.pairing(
              field,
              planner.crop(field + ".variety", named.variety()),
              named.stock(),
              named.variety(),
              question.site(),
              question.goal());
      if (!seen.add(pairing.stock().id() + " " + pairing.variety().id()))
        throw new Refusal.Conflict(
            field, field + ": " + pairing.names() + " stands in the list already");
    }
    return question.pairings();
  }

  private void checkPartners(ComparisonQuestion question) {
    for (int k = 0; k < question.partners().size(); k++) {
      ComparisonQuestion.Partner partner = question.partners().get(k);
      String field = "partners[" + k + "]";
      adviser.pairing(
          field,
          planner.crop(field + ".variety", partner.variety()),
          partner.stock(),
          partner.variety(),
          question.site(),
          question.goal());
    }
  }

  private String names(Named named) {
    var plants = adviser.book().plants();
    var stock = plants.requireStock("stock", named.stock());
    var crop = planner.crop("variety", named.variety());
    return plants.requireVariety("variety", crop, named.variety()).name() + " on " + stock.name();
  }

  private Entry entry(ComparisonQuestion question, Named named) {
    List<PlantingQuestion.Wanted> trees = new ArrayList<>();
    trees.add(new PlantingQuestion.Wanted(named.stock(), named.variety(), 1.0));
    var plants = adviser.book().plants();
    var crop = planner.crop("variety", named.variety());
    String own = plants.requireVariety("variety", crop, named.variety()).id();
    for (ComparisonQuestion.Partner partner : question.partners()) {
      var partnerCrop = planner.crop("variety", partner.variety());
      String id = plants.requireVariety("variety", partnerCrop, partner.variety()).id();
      if (!id.equals(own)) // a variety is no partner of itself
      trees.add(new PlantingQuestion.Wanted(partner.stock(), partner.variety(), null));
    }
    PlantingPlan plan =
        planner.plan(
            new PlantingQuestion(
                question.plot(),
                question.layout(),
                trees,
                question.site(),
                question.goal(),
                question.pollen(),
                question.sparePercent()));
    Years years = Years.of(plan);
    Money money =
        question.money() == null
            ? null
            : question.money().with(named.pricePerKg(), named.treeEach());
    Ledger ledger = new Ledger(plan, years, money, question.years());
    double[][] kg = Ledger.running(ledger.kg);
    double[] totalKg = kg[question.years()];
    return new Entry(
        plan,
        years,
        money == null ? null : Account.of(plan, money, ledger),
        spreads(ledger.kg).subList(1, ledger.kg.length),
        spreads(kg),
        totalKg,
        money == null ? totalKg : ledger.annuity,
        money == null ? totalKg : Ledger.running(ledger.cash)[question.years()]);
  }

  private static List<Spread> spreads(double[][] byYear) {
    return Arrays.stream(byYear).map(Spread::of).toList();
  }

  private static Comparison compared(
      ComparisonQuestion question, List<Entry> entries, List<NotPlanted> left, int judged) {
    double[] chances = chances(entries);
    double[] middles = entries.stream().mapToDouble(e -> middle(e.measure())).toArray();
    List<Integer> order =
        IntStream.range(0, entries.size())
            .boxed()
            .sorted(Comparator.comparingDouble((Integer k) -> -middles[k]))
            .toList();
    List<PlantingPlan.Caution> common = new ArrayList<>(entries.get(0).plan().cautions());
    for (Entry entry : entries) common.retainAll(entry.plan().cautions());
    List<Compared> plantings = new ArrayList<>();
    for (int r = 0; r < order.size(); r++) {
      Entry entry = entries.get(order.get(r));
      Compared bare =
          new Compared(
              r + 1,
              entry.plan(),
              entry.kg(),
              entry.cumulativeKg(),
              Spread.of(entry.totalKg()),
              entry.years().withoutCrop(),
              entry.account(),
              chances[order.get(r)],
              entry.plan().cautions().stream().filter(c -> !common.contains(c)).toList(),
              "");
      plantings.add(
          new Compared(
              bare.rank(),
              bare.plan(),
              bare.kg(),
              bare.cumulativeKg(),
              bare.totalKg(),
              bare.withoutCrop(),
              bare.account(),
              bare.chanceBest(),
              bare.cautions(),
              Telling.planting(bare, question.years(), order.size())));
    }
    List<Parting> partings = new ArrayList<>();
    for (int r = 1; r < order.size(); r++) {
      double[] best = entries.get(order.get(0)).end();
      double[] other = entries.get(order.get(r)).end();
      int ahead = 0;
      for (int d = 0; d < best.length; d++) if (best[d] > other[d]) ahead++;
      partings.add(
          Telling.parting(plantings.get(0), plantings.get(r), ahead / (double) best.length));
    }
    return new Comparison(
        question.money() != null,
        question.years(),
        plantings,
        partings,
        left,
        common,
        judged,
        Telling.comparison(plantings, partings, question.years()));
  }

  /**
   * The share of draws in which each is the best; draws in which several are go to each in part.
   */
  private static double[] chances(List<Entry> entries) {
    double[] chances = new double[entries.size()];
    int draws = entries.get(0).measure().length;
    for (int d = 0; d < draws; d++) {
      int draw = d;
      double most = entries.stream().mapToDouble(e -> e.measure()[draw]).max().orElseThrow();
      long winners = entries.stream().filter(e -> e.measure()[draw] == most).count();
      for (int k = 0; k < chances.length; k++)
        if (entries.get(k).measure()[d] == most) chances[k] += 1.0 / winners / draws;
    }
    return chances;
  }

  private static double middle(double[] draws) {
    double[] sorted = draws.clone();
    Arrays.sort(sorted);
    return Spread.percentile(sorted, 0.5);
  }
}
