package org.understock.evidence.pooling;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.understock.evidence.CompiledTraitBook;
import org.understock.evidence.Estimate;
import org.understock.evidence.Ordering;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.migrations.StarterEvidence;
import org.understock.plant.Crop;

/**
 * The pooled estimates against published orders of stocks that came without figures (orderings.csv,
 * each row with its source and place). Nothing of an order is pooled, so it is a check from
 * outside, except where the same publication also gave means of the same trait: those orders are
 * counted apart.
 *
 * <p>A pair is two stocks of one order in different groups. The estimates tell it apart when their
 * logs differ by more than an 80 % interval of the difference, their errors taken as independent:
 * they share the reference stock and most trials, so this calls fewer pairs apart than it might.
 */
class OrderingsTest {
  private static final StarterEvidence STARTER = StarterEvidence.read();
  private static final TraitBook BOOK = CompiledTraitBook.compile(1, STARTER.evidence());

  /** 90th percentile of the standard normal: half-width of an 80 % interval. */
  private static final double Z = 1.2815515655446004;

  /**
   * Set before the first run: of the pairs told apart at 80 %, at least this share in the published
   * order. Nine of ten would be right if errors were all there is; a single trial's order also
   * differs from the mean of many by its site and variety.
   */
  private static final double SHARE = 0.85;

  /**
   * So that the test cannot pass on next to nothing. The orders are many, but mostly of stocks that
   * no chain of trial means ties to the reference.
   */
  private static final int ENOUGH = 20;

  private record Order(
      String source, String trial, Crop crop, String scion, String site, String trait) {
    static Order of(Ordering place) {
      return new Order(
          place.source(), place.trial(), place.crop(), place.scion(), place.site(), place.trait());
    }

    /** Whether the publication that gave the order gave means of the trait too. */
    boolean alsoEvidence() {
      return STARTER.evidence().records().stream()
          .anyMatch(
              r ->
                  r.source().equals(source)
                      && r.trait().equals(trait)
                      && r.subject().crop() == crop);
    }
  }

  private record Tally(int inOrder, int against, int notToldApart, int unknown) {
    static final Tally NONE = new Tally(0, 0, 0, 0);

    Tally plus(Tally other) {
      return new Tally(
          inOrder + other.inOrder,
          against + other.against,
          notToldApart + other.notToldApart,
          unknown + other.unknown);
    }

    int toldApart() {
      return inOrder + against;
    }

    double share() {
      return (double) inOrder / toldApart();
    }

    @Override
    public String toString() {
      return String.format(
          Locale.ROOT,
          "%3d of %3d pairs told apart in the published order; %3d not told apart, %3d of which one is not known",
          inOrder,
          toldApart(),
          notToldApart,
          unknown);
    }
  }

  @Test
  void pairs_that_the_estimates_tell_apart_stand_in_the_published_order() {
    Map<Order, List<Ordering>> orders =
        STARTER.orderings().stream()
            .collect(Collectors.groupingBy(Order::of, LinkedHashMap::new, Collectors.toList()));
    Map<String, Tally> bySource = new TreeMap<>();
    Map<String, Tally> byTrait = new TreeMap<>();
    List<String> against = new ArrayList<>();
    Tally outside = Tally.NONE;
    Tally all = Tally.NONE;
    for (Map.Entry<Order, List<Ordering>> entry : orders.entrySet()) {
      Order order = entry.getKey();
      Tally tally = tally(order, entry.getValue(), against);
      bySource.merge(
          order.source() + (order.alsoEvidence() ? " (also evidence)" : ""), tally, Tally::plus);
      byTrait.merge(order.trait(), tally, Tally::plus);
      all = all.plus(tally);
      if (!order.alsoEvidence()) outside = outside.plus(tally);
    }
    System.out.println("published orders of stocks against the pooled estimates");
    bySource.forEach((source, tally) -> System.out.printf("  %-48s %s%n", source, tally));
    byTrait.forEach((trait, tally) -> System.out.printf("  %-48s %s%n", trait, tally));
    System.out.printf(Locale.ROOT, "  %-48s %s: %.1f %%%n", "all", all, 100 * all.share());
    System.out.printf(
        Locale.ROOT,
        "  %-48s %s: %.1f %%%n",
        "orders that are not evidence too",
        outside,
        100 * outside.share());
    against.forEach(pair -> System.out.println("  against: " + pair));
    assertThat(outside.toldApart()).as("pairs told apart").isGreaterThanOrEqualTo(ENOUGH);
    assertThat(outside.share())
        .as("in the published order, orders that are not evidence too")
        .isGreaterThanOrEqualTo(SHARE);
    assertThat(all.share()).as("in the published order, all orders").isGreaterThanOrEqualTo(SHARE);
  }

  private static Tally tally(Order order, List<Ordering> places, List<String> against) {
    Tally tally = Tally.NONE;
    for (Ordering low : places) {
      for (Ordering high : places) {
        if (low.group() < high.group())
          tally = tally.plus(pair(order, low.stock(), high.stock(), against));
      }
    }
    return tally;
  }

  private static Tally pair(Order order, String low, String high, List<String> against) {
    if (!(estimate(order, low) instanceof Estimate.Ratio a)
        || !(estimate(order, high) instanceof Estimate.Ratio b)) return new Tally(0, 0, 0, 1);
    double difference = b.logMean() - a.logMean();
    double error = Math.hypot(a.standardErrorLog(), b.standardErrorLog());
    if (Math.abs(difference) <= Z * error) return new Tally(0, 0, 1, 0);
    if (difference > 0) return new Tally(1, 0, 0, 0);
    against.add(
        String.format(
            Locale.ROOT,
            "%s, %s: %s should be below %s (ratio %.2f, %.1f standard errors)",
            order.source(),
            order.trait(),
            low,
            high,
            Math.exp(-difference),
            -difference / error));
    return new Tally(0, 1, 0, 0);
  }

  private static Estimate estimate(Order order, String stock) {
    return BOOK.estimate(new Subject.StockIn(order.crop(), stock), order.trait()).orElse(null);
  }
}
