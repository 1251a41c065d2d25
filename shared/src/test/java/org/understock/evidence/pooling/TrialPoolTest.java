package org.understock.evidence.pooling;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.assertj.core.data.Offset;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.understock.evidence.Context;
import org.understock.evidence.Context.Spread;
import org.understock.evidence.Estimate;
import org.understock.evidence.Method;
import org.understock.evidence.Subject;
import org.understock.plant.Crop;
import org.understock.trait.Trait.Scale;
import org.understock.trait.Value;

/**
 * Trial means pooled as ratios, from invented tables so small that the answer has a closed form.
 * With one table of two stocks, each of variance v, the log ratio has the variance 2 (v + τ²), and
 * τ² is what stands for it where nothing is known: 0.033.
 */
class TrialPoolTest {
  private static final Offset<Double> EXACT = within(1e-9);
  private static final double USUAL_TAU2 = 0.033;
  private static final double CLONES = 0.12 * 0.12;

  private final Gathered it = new Gathered();

  @BeforeEach
  void trait() {
    it.trait("area", Scale.CONTRAST, "cm2");
  }

  private TrialPoolTest mean(
      Crop crop, String place, String stock, Value value, @Nullable Spread spread, String locator) {
    String[] parts = place.split("/", -1);
    Context context =
        new Context(
            parts[0],
            parts[1],
            parts.length > 3 ? parts[3] : "scion",
            2000,
            parts.length > 2 && !parts[2].isEmpty() ? Integer.valueOf(parts[2]) : null,
            5,
            spread,
            null,
            null,
            null);
    it.says(
        "s", Method.REPLICATED_MULTI_SITE, it.stock(crop, stock), "area", value, locator, context);
    return this;
  }

  /** A mean at trial/site[/year[/scion]] without a printed spread. */
  private TrialPoolTest mean(String place, String stock, double value) {
    return mean(Crop.APPLE, place, stock, new Value.Quantity(value), null, "Table 1");
  }

  private Estimate.Ratio ratio(String stock) {
    return it.pooled(Estimate.Ratio.class, new Subject.StockIn(Crop.APPLE, stock), "area");
  }

  private double variance(String stock) {
    return Math.pow(ratio(stock).standardErrorLog(), 2);
  }

  @Test
  void one_table_gives_its_own_ratio() {
    mean("t/one", "a", 100).mean("t/one", "b", 50);
    assertThat(ratio("b").reference()).isEqualTo("a");
    assertThat(ratio("b").logMean()).isCloseTo(Math.log(0.5), EXACT);
    assertThat(ratio("b").tauLog()).isCloseTo(Math.sqrt(USUAL_TAU2), EXACT);
    assertThat(ratio("b").strata()).isEqualTo(1);
    assertThat(ratio("b").degreesOfFreedom()).isZero();
    assertThat(variance("b")).as("0.01 where no spread is printed").isCloseTo(0.086, EXACT);
    assertThat(ratio("a").logMean()).isZero();
    assertThat(variance("a")).isZero();
    assertThat(it.pools().references()).containsEntry(Crop.APPLE, "a");
  }

  /** The stock met in most tables is the reference, not the first by name. */
  @Test
  void the_best_connected_stock_is_the_reference() {
    mean("t/one", "a", 100).mean("t/one", "c", 50);
    mean("u/one", "b", 80).mean("u/one", "c", 20);
    assertThat(ratio("a").reference()).isEqualTo("c");
    assertThat(ratio("a").logMean()).isCloseTo(Math.log(2), EXACT);
    assertThat(ratio("b").logMean()).isCloseTo(Math.log(4), EXACT);
    assertThat(ratio("c").strata()).isEqualTo(2);
  }

  /**
   * Two stocks of five trees: 8 degrees of freedom. Student's t of 0.975 is 2.306 and the
   * studentized range of 0.95 for two means 3.261, as any table prints them; the table's mean is
   * 75.
   */
  @ParameterizedTest
  @CsvSource({"SE,1", "SD,2.2360680", "LSD,3.261177", "HSD,3.261177"})
  void a_printed_spread_is_the_variance_of_the_mean(Spread.Kind kind, double perError) {
    Spread spread = new Spread(kind, 6);
    mean(Crop.APPLE, "t/one", "a", new Value.Quantity(100), spread, "Table 1");
    mean(Crop.APPLE, "t/one", "b", new Value.Quantity(50), spread, "Table 1");
    double v = Math.pow(6 / perError / 75, 2);
    assertThat(variance("b")).isCloseTo(2 * (v + USUAL_TAU2), within(1e-7));
  }

  /** Of the three spreads that are printed for the trait, pears' too, the middle one. */
  @Test
  void tables_without_a_spread_have_the_usual_one_of_the_trait() {
    mean("t/one", "a", 100).mean("t/one", "b", 50);
    for (int i = 0; i < 3; i++)
      mean(
          Crop.EUROPEAN_PEAR,
          "u/one",
          "p" + i,
          new Value.Quantity(100),
          new Spread(Spread.Kind.SE, new double[] {20, 5, 30}[i]),
          "Table 1");
    assertThat(variance("b")).isCloseTo(2 * (0.04 + USUAL_TAU2), EXACT);
  }

  @Test
  void a_spread_of_nothing_is_none() {
    Spread none = new Spread(Spread.Kind.SE, 0);
    mean(Crop.APPLE, "t/one", "a", new Value.Quantity(100), none, "Table 1");
    mean(Crop.APPLE, "t/one", "b", new Value.Quantity(50), none, "Table 1");
    assertThat(variance("b")).isCloseTo(0.086, EXACT);
  }

  @Test
  void means_seen_in_an_abstract_weigh_half() {
    mean(Crop.APPLE, "t/one", "a", new Value.Quantity(100), null, "abstract");
    mean(Crop.APPLE, "t/one", "b", new Value.Quantity(50), null, "abstract");
    assertThat(variance("b")).isCloseTo(2 * 0.086, EXACT);
  }

  @ParameterizedTest
  @CsvSource({"abstract only", "full text not had; abstract seen", "abstract of a talk"})
  void a_source_can_say_that_only_its_abstract_was_seen(String note) {
    it.source("s", null, note);
    mean("t/one", "a", 100).mean("t/one", "b", 50);
    assertThat(variance("b")).isCloseTo(2 * 0.086, EXACT);
  }

  /** A mean over m sites has an m-th of the variance from site to site. */
  @ParameterizedTest
  @CsvSource({
    "all-sites-mean,Table 1 (10 sites),10",
    "all-sites-mean,Table 1,1",
    "all-sites-mean,Table 1 (0 sites),1",
    "one,Table 1 (10 sites),1"
  })
  void a_mean_over_sites_varies_less_by_their_number(String site, String locator, int sites) {
    mean(Crop.APPLE, "t/" + site, "a", new Value.Quantity(100), null, locator);
    mean(Crop.APPLE, "t/" + site, "b", new Value.Quantity(50), null, locator);
    assertThat(variance("b")).isCloseTo(2 * (0.01 + USUAL_TAU2 / sites), EXACT);
  }

  @Test
  void a_planting_counts_once() {
    mean("t/one/2005", "a", 10).mean("t/one/2005", "b", 9);
    mean("t/one/2009", "a", 100).mean("t/one/2009", "b", 50);
    mean("t/all-sites-mean", "a", 100).mean("t/all-sites-mean", "b", 70);
    assertThat(ratio("b").logMean()).isCloseTo(Math.log(0.5), EXACT);
    assertThat(ratio("b").strata()).isEqualTo(1);
    assertThat(ratio("b").support().records()).containsExactly("r3");
  }

  @Test
  void a_mean_over_sites_serves_where_its_single_sites_are_not_told() {
    mean("t/one", "a", 100).mean("t/one", "b", 50);
    mean("u/all-sites-mean", "a", 100).mean("u/all-sites-mean", "b", 50);
    assertThat(ratio("b").strata()).isEqualTo(2);
  }

  /** Two figures of one stock on one planting are averaged, as logarithms and in their variance. */
  @Test
  void a_stock_that_stands_twice_in_a_table_is_averaged() {
    mean("t/one", "a", 100).mean("t/one", "b", 40).mean("t/one", "b", 90);
    assertThat(ratio("b").logMean()).isCloseTo(Math.log(0.6), EXACT);
    assertThat(variance("b")).isCloseTo(0.086, EXACT);
    assertThat(ratio("b").support().records()).containsExactly("r1", "r2");
  }

  @Test
  void a_range_is_its_middle_and_an_open_one_is_no_mean() {
    mean("t/one", "a", 100);
    mean(Crop.APPLE, "t/one", "b", new Value.Range(40.0, 60.0), null, "Table 1");
    mean(Crop.APPLE, "t/one", "c", new Value.Range(40.0, null), null, "Table 1");
    mean(Crop.APPLE, "t/one", "d", new Value.Range(null, 40.0), null, "Table 1");
    assertThat(ratio("b").logMean()).isCloseTo(Math.log(0.5), EXACT);
    assertThat(it.pools().estimates())
        .containsOnlyKeys(
            new Subject.StockIn(Crop.APPLE, "a"), new Subject.StockIn(Crop.APPLE, "b"));
  }

  @Test
  void what_no_chain_of_tables_joins_is_not_compared() {
    mean("t/one", "a", 100).mean("t/one", "b", 50).mean("t/two", "a", 100).mean("t/two", "b", 50);
    mean("u/one", "y", 100).mean("u/one", "z", 50);
    Estimate.NotComparable z =
        it.pooled(Estimate.NotComparable.class, new Subject.StockIn(Crop.APPLE, "z"), "area");
    assertThat(z.reference()).isEqualTo("a");
    assertThat(z.strata()).isEqualTo(1);
  }

  /** d over c, and c over its stock a with the spread that clones have: variances add. */
  @Test
  void a_clone_ties_its_table_to_its_stock() {
    it.strain("c", "a");
    mean("t/one", "a", 100).mean("t/one", "b", 50);
    mean("u/one", "c", 80).mean("u/one", "d", 20);
    assertThat(ratio("d").reference()).isEqualTo("a");
    assertThat(ratio("d").logMean()).isCloseTo(Math.log(0.25), EXACT);
    assertThat(variance("d")).isCloseTo(0.086 + CLONES, EXACT);
    assertThat(ratio("c").logMean()).isCloseTo(0, EXACT);
    assertThat(variance("c")).isCloseTo(CLONES, EXACT);
  }

  /**
   * n sites, two stocks: n - 1 degrees of freedom; τ² is half the variance of the differences less
   * v. From five on the fit's own is believed, and carried to crops that have too few.
   */
  @ParameterizedTest
  @CsvSource({"6,true", "5,false"})
  void the_variance_between_sites_is_believed_from_five_degrees_of_freedom(
      int sites, boolean believed) {
    double sum = 0;
    double squares = 0;
    for (int i = 0; i < sites; i++) {
      double difference = i % 2 == 0 ? 0.1 : 0.5;
      sum += difference;
      squares += difference * difference;
      mean("t/site" + i, "a", 100).mean("t/site" + i, "b", 100 * Math.exp(difference));
    }
    double own = (squares - sum * sum / sites) / (sites - 1) / 2 - 0.01;
    assertThat(own)
        .as("apart from the usual, so that it shows which is used")
        .isBetween(0.01, 0.02);
    mean(Crop.EUROPEAN_PEAR, "u/one", "p", new Value.Quantity(100), null, "Table 1");
    mean(Crop.EUROPEAN_PEAR, "u/one", "q", new Value.Quantity(50), null, "Table 1");
    double expected = believed ? own : USUAL_TAU2;
    assertThat(ratio("b").degreesOfFreedom()).isEqualTo(sites - 1);
    assertThat(ratio("b").tauLog()).isCloseTo(Math.sqrt(expected), within(1e-5));
    Estimate.Ratio pear =
        it.pooled(Estimate.Ratio.class, new Subject.StockIn(Crop.EUROPEAN_PEAR, "q"), "area");
    assertThat(pear.tauLog()).isCloseTo(Math.sqrt(expected), within(1e-5));
  }

  /** What few sites tell widens the usual variance but never narrows it. */
  @Test
  void few_sites_can_only_widen_the_usual_variance() {
    mean("t/one", "a", 100).mean("t/one", "b", 100);
    mean("t/two", "a", 100).mean("t/two", "b", 100 * Math.E);
    assertThat(ratio("b").tauLog()).isCloseTo(Math.sqrt(0.5 / 2 - 0.01), within(1e-6));
  }

  /**
   * Full tables: with S scions, k stocks and m sites for each scion, (S - 1)(k - 1) degrees of
   * freedom lie between scions and S (m - 1)(k - 1) inside them. Three scions and five of both are
   * asked for.
   */
  @ParameterizedTest
  @CsvSource({
    "3,4,2,true",
    "3,3,2,false",
    "2,7,2,false",
    "3,4,1,false",
    "6,2,2,true",
    "5,2,2,false",
  })
  void scions_are_told_apart_where_the_tables_allow(
      int scions, int stocks, int sites, boolean apart) {
    for (int s = 0; s < scions; s++)
      for (int m = 0; m < sites; m++)
        for (int k = 0; k < stocks; k++) mean("t/site" + m + "//scion" + s, "k" + k, 10 + k);
    TrialPool pool = TrialPool.of(it.evidence(), it.evidence().records(), 0.01);
    assertThat(pool.strata).hasSize(scions * sites);
    assertThat(pool.tellsScionsApart(pool.rows)).isEqualTo(apart);
  }

  /**
   * Six scions of two stocks, five of them at two sites: five degrees inside scions, just enough.
   */
  @ParameterizedTest
  @CsvSource({"5,true", "4,false"})
  void five_degrees_inside_scions_are_just_enough(int twice, boolean apart) {
    for (int s = 0; s < 6; s++)
      for (int m = 0; m < (s < twice ? 2 : 1); m++)
        for (int k = 0; k < 2; k++) mean("t/site" + m + "//scion" + s, "k" + k, 10 + k);
    TrialPool pool = TrialPool.of(it.evidence(), it.evidence().records(), 0.01);
    assertThat(pool.tellsScionsApart(pool.rows)).isEqualTo(apart);
  }
}
