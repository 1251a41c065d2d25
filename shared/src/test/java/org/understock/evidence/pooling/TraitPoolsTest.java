package org.understock.evidence.pooling;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.stream.IntStream;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.understock.evidence.Context;
import org.understock.evidence.Estimate;
import org.understock.evidence.Method;
import org.understock.evidence.Subject;
import org.understock.plant.Crop;
import org.understock.trait.Trait.Scale;
import org.understock.trait.Value;

/**
 * Figures, levels, names and relative days, pooled from invented records whose answer can be worked
 * out by hand. What a single figure's own doubt is (a tenth; 1.5 degC and so on), how an open end
 * is read and what a voice weighs are judgements of this project and are held here as such.
 */
class TraitPoolsTest {
  private static final Offset<Double> EXACT = within(1e-9);
  private static final Method TRIAL = Method.REPLICATED_MULTI_SITE;

  /** Standard normal quantile of 0.95, from any table: half a 90 % interval in deviations. */
  private static final double Z = 1.644853627;

  private final Gathered it = new Gathered();

  private static Value is(double value) {
    return new Value.Quantity(value);
  }

  private static Value range(Double low, Double high) {
    return new Value.Range(low, high);
  }

  // Positive quantities

  private Estimate.Quantity height(Method method, Value value) {
    Subject a = it.stock(Crop.APPLE, "a");
    return it.trait("height", Scale.QUANTITY, "m")
        .says("s", method, a, "height", value)
        .pooled(Estimate.Quantity.class, a, "height");
  }

  @Test
  void one_figure_is_known_to_a_tenth_and_may_differ_by_two_elsewhere() {
    Estimate.Quantity height = height(TRIAL, is(4));
    assertThat(height.logMean()).isCloseTo(Math.log(4), EXACT);
    assertThat(height.standardErrorLog()).isCloseTo(Math.hypot(0.1, 0.2), EXACT);
    assertThat(height.betweenLog()).isCloseTo(0.2, EXACT);
    assertThat(height.support().records()).containsExactly("r0");
    assertThat(height.support().sources()).isEqualTo(1);
  }

  @Test
  void a_range_is_a_90_percent_interval_around_its_geometric_middle() {
    Estimate.Quantity height = height(TRIAL, range(4.0, 9.0));
    assertThat(height.logMean()).isCloseTo(Math.log(6), EXACT);
    double half = Math.log(9.0 / 4) / 2 / Z;
    assertThat(height.standardErrorLog())
        .isCloseTo(Math.sqrt(half * half + 0.01 + 0.04), within(1e-8));
  }

  @Test
  void an_open_end_lies_a_tenth_beyond_its_bound() {
    assertThat(height(TRIAL, range(6.0, null)).logMean()).isCloseTo(Math.log(6) + 0.1, EXACT);
  }

  @Test
  void an_open_beginning_lies_a_tenth_below_its_bound() {
    Estimate.Quantity height = height(TRIAL, range(null, 6.0));
    assertThat(height.logMean()).isCloseTo(Math.log(6) - 0.1, EXACT);
    assertThat(height.standardErrorLog()).isCloseTo(Math.sqrt(0.01 + 0.0625 + 0.04), EXACT);
  }

  @Test
  void an_open_end_is_as_uncertain_as_an_open_beginning() {
    assertThat(height(TRIAL, range(6.0, null)).standardErrorLog())
        .isCloseTo(Math.sqrt(0.01 + 0.0625 + 0.04), EXACT);
  }

  /** A voice of weight w is a w-th of a trial's, so its variance is the trial's divided by w. */
  @ParameterizedTest
  @CsvSource({
    "REPLICATED_MULTI_SITE,1",
    "REPLICATED_SINGLE_SITE,0.8",
    "EXPERT_RATING,0.6",
    "BREEDER_STATEMENT,0.4",
    "GROWER_OBSERVATION,0.3",
    "COMMON_PRACTICE,0.3",
    "FROM_MEMORY,0.15"
  })
  void lesser_voices_are_less_sure(Method method, double weight) {
    assertThat(height(method, is(4)).standardErrorLog())
        .isCloseTo(Math.sqrt(0.01 / weight + 0.04), EXACT);
  }

  /** Two figures of equal doubt s: DerSimonian and Laird's estimate is d²/2 - s². */
  @Test
  void sources_that_differ_tell_how_much_sources_differ() {
    Subject a = it.stock(Crop.APPLE, "a");
    Estimate.Quantity height =
        it.trait("height", Scale.QUANTITY, "m")
            .says("s", TRIAL, a, "height", is(4))
            .says("t", TRIAL, a, "height", is(9))
            .pooled(Estimate.Quantity.class, a, "height");
    double d = Math.log(9.0 / 4);
    double between2 = d * d / 2 - 0.01;
    assertThat(height.logMean()).isCloseTo(Math.log(6), EXACT);
    assertThat(height.betweenLog()).isCloseTo(Math.sqrt(between2), EXACT);
    assertThat(height.standardErrorLog()).isCloseTo(Math.sqrt((between2 + 0.01) / 2), EXACT);
    assertThat(height.support().sources()).isEqualTo(2);
  }

  /** A source that restates another adds no voice; what the two differ by widens the one. */
  @Test
  void sources_of_one_origin_speak_once() {
    Subject a = it.stock(Crop.APPLE, "a");
    Estimate.Quantity height =
        it.trait("height", Scale.QUANTITY, "m")
            .source("copy", "s", "")
            .says("s", TRIAL, a, "height", is(4))
            .says("copy", TRIAL, a, "height", is(9))
            .pooled(Estimate.Quantity.class, a, "height");
    double off = Math.log(1.5);
    assertThat(height.logMean()).isCloseTo(Math.log(6), EXACT);
    assertThat(height.betweenLog()).isCloseTo(0.2, EXACT);
    assertThat(height.standardErrorLog()).isCloseTo(Math.sqrt(0.01 + off * off + 0.04), EXACT);
  }

  /**
   * Equal doubts: the moment estimate is the sample variance less s². A crop with ten figures to
   * spare goes by its own, one with fewer by all crops together.
   */
  @ParameterizedTest
  @CsvSource({"10,false", "11,true"})
  void a_crop_with_enough_figures_goes_by_its_own(int voices, boolean own) {
    Subject a = it.stock(Crop.APPLE, "a");
    Subject b = it.stock(Crop.EUROPEAN_PEAR, "b");
    it.trait("height", Scale.QUANTITY, "m");
    double[] logs = IntStream.range(0, voices).mapToDouble(i -> 0.3 * (i % 2)).toArray();
    for (int i = 0; i < voices; i++) it.says("s" + i, TRIAL, a, "height", is(Math.exp(logs[i])));
    it.says("s0", TRIAL, b, "height", is(1)).says("s1", TRIAL, b, "height", is(Math.exp(2)));
    double mean = IntStream.range(0, voices).mapToDouble(i -> logs[i]).average().orElseThrow();
    double squares = IntStream.range(0, voices).mapToDouble(i -> Math.pow(logs[i] - mean, 2)).sum();
    double apples = squares / (voices - 1) - 0.01;
    double all = (squares + 2) / voices - 0.01;
    assertThat(it.pooled(Estimate.Quantity.class, a, "height").betweenLog())
        .isCloseTo(Math.sqrt(own ? apples : all), EXACT);
    assertThat(it.pooled(Estimate.Quantity.class, b, "height").betweenLog())
        .isCloseTo(Math.sqrt(all), EXACT);
  }

  // Quantities on their own scale

  @ParameterizedTest
  @CsvSource({"degC,1.5", "%,8", "pH,0.2", "d,4"})
  void a_figure_without_logarithm_has_the_doubt_of_its_unit(String unit, double spread) {
    Subject a = it.stock(Crop.APPLE, "a");
    Estimate.Interval cold =
        it.trait("cold", Scale.INTERVAL, unit)
            .says("s", Method.BREEDER_STATEMENT, a, "cold", is(-25))
            .pooled(Estimate.Interval.class, a, "cold");
    assertThat(cold.unit()).isEqualTo(unit);
    assertThat(cold.mean()).isCloseTo(-25, EXACT);
    assertThat(cold.between()).isCloseTo(spread, EXACT);
    assertThat(cold.standardError())
        .isCloseTo(Math.sqrt(spread * spread / 0.4 + spread * spread), EXACT);
  }

  @ParameterizedTest
  @CsvSource({"-30,-20,-25,true", "-30,,-30,false", ",-20,-20,false"})
  void a_range_without_logarithm(Double low, Double high, double mean, boolean closed) {
    Subject a = it.stock(Crop.APPLE, "a");
    Estimate.Interval cold =
        it.trait("cold", Scale.INTERVAL, "degC")
            .says("s", TRIAL, a, "cold", range(low, high))
            .pooled(Estimate.Interval.class, a, "cold");
    double own = closed ? Math.hypot(1.5, 10 / (2 * Z)) : 3;
    assertThat(cold.mean()).isCloseTo(mean, EXACT);
    assertThat(cold.standardError()).isCloseTo(Math.hypot(own, 1.5), within(1e-7));
  }

  // Levels and names

  private Gathered rated(String trait) {
    return it.trait(trait, Scale.LEVELS, "", "low", "middling", "high")
        .source("copy", "s", "")
        .says("s", TRIAL, it.stock(Crop.APPLE, "a"), trait, new Value.Level("low"))
        .says("copy", TRIAL, it.stock(Crop.APPLE, "a"), trait, new Value.Level("high"))
        .says(
            "t",
            Method.EXPERT_RATING,
            it.stock(Crop.EUROPEAN_PEAR, "a"),
            trait,
            new Value.Level("high"));
  }

  private static double[] alpha(RatingPool.Voice... voices) {
    return RatingPool.pool(3, RatingPool.PRIOR / 3, RatingPool.NEIGHBOUR, List.of(voices));
  }

  @Test
  void an_origin_that_states_two_levels_shares_its_weight_among_them() {
    rated("scab");
    Estimate.Levels apple = it.pooled(Estimate.Levels.class, it.stock(Crop.APPLE, "a"), "scab");
    assertThat(apple.alpha())
        .containsExactly(
            alpha(new RatingPool.Voice(0, 0, 0.5), new RatingPool.Voice(2, 2, 0.5)), EXACT);
    assertThat(apple.support().sources()).isEqualTo(2);
    assertThat(it.pooled(Estimate.Levels.class, it.stock(Crop.EUROPEAN_PEAR, "a"), "scab").alpha())
        .containsExactly(alpha(new RatingPool.Voice(2, 2, 0.6)), EXACT);
    assertThat(it.pools().underAnyCrop()).isEmpty();
  }

  @Test
  void what_the_root_does_is_pooled_over_all_crops_too() {
    rated("crown-gall");
    Estimate.Levels any = (Estimate.Levels) it.pools().underAnyCrop().get("a").get("crown-gall");
    assertThat(any.alpha())
        .containsExactly(
            alpha(
                new RatingPool.Voice(0, 0, 0.5),
                new RatingPool.Voice(2, 2, 0.5),
                new RatingPool.Voice(2, 2, 0.6)),
            EXACT);
    assertThat(any.support().records()).containsExactly("r0", "r1", "r2");
  }

  @Test
  void names_are_voted_for_by_weight_once_by_each_voice() {
    Subject a = it.variety("a");
    it.trait("habit", Scale.NAMES, "")
        .source("copy", "s", "")
        .says("s", Method.EXPERT_RATING, a, "habit", new Value.Name("upright"))
        .says("copy", Method.EXPERT_RATING, a, "habit", new Value.Name("upright"))
        .says("t", Method.GROWER_OBSERVATION, a, "habit", new Value.Name("drooping"))
        .says("u", Method.BREEDER_STATEMENT, a, "habit", new Value.Name("drooping"))
        .says("v", Method.EXPERT_RATING, a, "habit", new Value.Name("spreading"));
    Estimate.Named habit = it.pooled(Estimate.Named.class, a, "habit");
    assertThat(habit.votes().keySet()).containsExactly("drooping", "spreading", "upright");
    assertThat(habit.votes().get("upright")).isCloseTo(0.6, EXACT);
    assertThat(habit.votes().get("drooping")).isCloseTo(0.7, EXACT);
    assertThat(habit.votes().get("spreading")).isCloseTo(0.6, EXACT);
    assertThat(habit.support().records()).hasSize(5);
  }

  // Days from another variety

  private Gathered day(String source, String from, String variety, Value days) {
    Context context = new Context(null, null, null, null, null, null, null, null, null, from);
    return it.says(source, TRIAL, it.variety(variety), "bloom", days, "Table 1", context);
  }

  private Estimate.Interval bloom(String variety) {
    return it.pooled(Estimate.Interval.class, it.variety(variety), "bloom");
  }

  /** x stands in both lists, so days count from it: y is 6 before it, z 3 after it. */
  @Test
  void lists_are_linked_through_the_varieties_they_share() {
    it.trait("bloom", Scale.INTERVAL, "d");
    it.variety("zero");
    day("s", "zero", "x", is(4));
    day("s", "zero", "y", range(-3.0, -1.0));
    day("t", "x", "z", is(2));
    day("t", "x", "z", is(4));
    day("u", "far", "remote", is(1));
    day("u", "far", "lonely", is(2));
    assertThat(bloom("x").mean()).isCloseTo(0, EXACT);
    assertThat(bloom("y").mean()).isCloseTo(-6, EXACT);
    assertThat(bloom("z").mean()).isCloseTo(3, EXACT);
    assertThat(bloom("x").standardError()).isCloseTo(2, EXACT);
    assertThat(bloom("y").standardError()).isCloseTo(Math.sqrt(4 + 4 + 4), EXACT);
    assertThat(bloom("z").standardError()).isCloseTo(Math.sqrt(4 + 4 + 2), EXACT);
    assertThat(bloom("z").unit()).isEqualTo("d");
    assertThat(it.pools().estimates())
        .as("nothing links the third list; nothing is said of the zero itself")
        .containsOnlyKeys(it.variety("x"), it.variety("y"), it.variety("z"));
  }

  @Test
  void a_list_has_its_own_zero_only_once() {
    it.trait("bloom", Scale.INTERVAL, "d");
    day("s", "zero", "zero", is(1));
    day("s", "zero", "x", range(5.0, null));
    day("s", "zero", "y", range(null, 7.0));
    assertThat(bloom("x").mean() - bloom("zero").mean()).isCloseTo(4, EXACT);
    assertThat(bloom("y").mean() - bloom("zero").mean()).isCloseTo(6, EXACT);
  }

  /**
   * Two complete lists of three: differences are differences of means, and the variance between
   * lists is the residual mean square of the two-way table (2 degrees of freedom) less 2² days.
   */
  @Test
  void lists_that_differ_tell_how_much_lists_differ() {
    it.trait("bloom", Scale.INTERVAL, "d");
    it.variety("zero");
    day("s", "zero", "x", is(4));
    day("s", "zero", "y", is(20));
    day("t", "zero", "x", is(20));
    day("t", "zero", "y", is(10));
    // Means over lists 0, 12, 15; list means 8 and 10; residuals of the first list 1, -7, 6.
    double between2 = 2 * (1 + 49 + 36) / 2.0 - 4;
    assertThat(bloom("y").mean() - bloom("x").mean()).isCloseTo(3, within(1e-7));
    assertThat(bloom("y").between()).isCloseTo(Math.sqrt(between2), within(1e-6));
  }
}
