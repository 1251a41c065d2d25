package org.understock.growth;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.understock.evidence.Grade;
import org.understock.plant.Crop;
import org.understock.plant.Stock.Kind;

/**
 * A line to which no point belongs is its prior, so that all that is read off it has a closed form:
 * a normal prior times normal observations. The numbers are invented and round.
 */
class CurveTest {
  private static final Offset<Double> EXACT = within(1e-9);
  private static final double LOG_9 = Math.log(9);

  /** Nine metres for the standard tree, sure to half; kept 0.25 lower, cut to 0.5 lower. */
  private static final Curve.Common HEIGHTS =
      new Curve.Common(LOG_9, 0.5, new double[] {2, -0.25, -0.5}, 0.1);

  private static final Size HALF = new Size(0.5, 0.1, List.of("size"), Grade.B, Part.Basis.OWN);

  /** Intercept, slope at half size, single stocks about the line, and the size's own doubt. */
  private static final double VARIANCE =
      0.5 * 0.5 + 0.25 * 0.5 * 0.5 + 0.1 * 0.1 + Math.pow(2 * 0.5 * 0.1, 2);

  /** A statement known to a tenth, and what a single statement means beyond its range. */
  private static final double STATED = 0.1 * 0.1 + 0.08 * 0.08;

  private static Curve heights(FakeBook book) {
    return Curve.of(book, Crop.APPLE, Measure.HEIGHT, Sizes.of(book, Crop.APPLE), HEIGHTS);
  }

  private static FakeBook told(String trait, double value) {
    return new FakeBook()
        .stock(Crop.APPLE, "told", Kind.CLONE)
        .quantity(Crop.APPLE, "told", trait, value);
  }

  /** Precisions add up, and means by their precisions. */
  private static void holds(Part part, double observed, double variance, double priorMean) {
    double precision = 1 / VARIANCE + 1 / variance;
    double mean = (priorMean / VARIANCE + observed / variance) / precision;
    double surprise = Math.pow(observed - priorMean, 2) / (VARIANCE + variance);
    double wider = surprise < 1 ? 1 : surprise > 6 ? 6 : surprise;
    assertThat(part.value().mu()).isCloseTo(mean, EXACT);
    assertThat(part.unknownSd()).isCloseTo(Math.sqrt(wider / precision), EXACT);
    assertThat(part.basis()).isEqualTo(Part.Basis.OWN);
  }

  @Test
  void without_records_the_line_answers_and_says_that_it_knows_the_crop_alone() {
    Part part = heights(new FakeBook()).part("any", HALF, false, 1);
    assertThat(part.value().mu()).isCloseTo(LOG_9 - 1 - 0.25, EXACT);
    // The shift's own doubt is 0.2; places differ by 0.12 where nothing tells.
    assertThat(part.unknownSd()).isCloseTo(Math.sqrt(VARIANCE + 0.04), EXACT);
    assertThat(part.placeSd()).isEqualTo(0.12);
    assertThat(part.basis()).isEqualTo(Part.Basis.CROP);
    assertThat(part.records()).containsExactly("size");
    assertThat(part.grade()).isEqualTo(Grade.B);
  }

  @Test
  void an_own_record_weighs_by_its_precision() {
    for (double m : new double[] {3.2, 3.4, 6, 60}) {
      Part part = heights(told("mature-height", m)).part("told", HALF, false, 0);
      holds(part, Math.log(m), STATED, LOG_9 - 1);
      assertThat(part.placeSd()).as("as the record says").isEqualTo(0.1);
      assertThat(part.records()).containsExactly("told:mature-height");
      assertThat(part.grade()).isEqualTo(Grade.C);
    }
  }

  @Test
  void a_record_of_trees_kept_otherwise_counts_after_the_shift_with_more_doubt() {
    Part part = heights(told("usual-height", 2.5)).part("told", HALF, false, 0);
    holds(part, Math.log(2.5) + 0.25, STATED + 0.2 * 0.2, LOG_9 - 1);
    assertThat(part.records()).containsExactly("told:usual-height");
  }

  @Test
  void what_is_told_of_standard_trees_speaks_of_full_sized_seedlings_alone() {
    FakeBook book = new FakeBook().quantity(Crop.APPLE, Sizes.STANDARD, "mature-height", 4);
    Part standard = heights(book).part("any", HALF, true, 0);
    holds(standard, Math.log(4), STATED + 0.05 * 0.05, LOG_9 - 1);
    assertThat(heights(book).part("any", HALF, false, 0).value().mu()).isCloseTo(LOG_9 - 1, EXACT);
  }

  @Test
  void a_stocks_own_records_come_before_those_of_standard_trees() {
    FakeBook book =
        told("mature-height", 5)
            .quantity(Crop.APPLE, Sizes.STANDARD, "mature-height", 5)
            .quantity(Crop.APPLE, Sizes.STANDARD, "usual-height", 4);
    assertThat(heights(book).part("told", HALF, true, 0).records())
        .containsExactly(
            "told:mature-height",
            "standard-seedling:mature-height",
            "standard-seedling:usual-height");
    assertThat(heights(book).part("told", HALF, true, 1).records())
        .startsWith("told:mature-height", "standard-seedling:usual-height");
  }

  /** Places differ as the stock's own records say, by 0.1, and not as those of standard trees. */
  @Test
  void what_is_told_of_standard_trees_says_how_places_differ_only_where_nothing_else_does() {
    FakeBook wide =
        told("mature-height", 5).quantity(Crop.APPLE, Sizes.STANDARD, "mature-height", 9, 0.1, 0.4);
    assertThat(heights(wide).part("told", HALF, true, 0).placeSd()).isEqualTo(0.1);
    assertThat(heights(wide).part("any", HALF, true, 0).placeSd()).isEqualTo(0.4);
  }

  @Test
  void records_of_the_asked_way_of_growing_are_cited_first() {
    FakeBook book = told("mature-height", 5).quantity(Crop.APPLE, "told", "pruned-height", 3);
    assertThat(heights(book).part("told", HALF, false, 2).records())
        .containsExactly("told:pruned-height", "told:mature-height");
  }

  @Test
  void a_size_is_read_off_the_line_backwards() {
    Size one = heights(told("mature-height", 9 * Math.exp(-0.8))).sizeFrom("told");
    assertThat(Objects.requireNonNull(one).fraction()).isCloseTo(0.6, EXACT);
    // One statement about a line whose height for the standard tree is sure to half.
    assertThat(one.sdLog()).isCloseTo(Math.sqrt(STATED + 0.01 + 0.25) / 2 / 0.6, EXACT);
    assertThat(one.basis()).isEqualTo(Part.Basis.SIZE);
    assertThat(one.records()).containsExactly("told:mature-height");

    FakeBook both =
        told("mature-height", 9 * Math.exp(-0.8))
            .quantity(Crop.APPLE, "told", "usual-height", 9 * Math.exp(-0.25 - 0.4));
    Size two = Objects.requireNonNull(heights(both).sizeFrom("told"));
    assertThat(two.fraction()).as("between 0.6 and 0.8").isCloseTo(0.7, EXACT);
    assertThat(two.sdLog()).isCloseTo(Math.sqrt((STATED + 0.01) / 2 + 0.25) / 2 / 0.7, EXACT);
  }

  @Test
  void sizes_read_back_stay_within_what_trees_can_be() {
    Size small = Objects.requireNonNull(heights(told("mature-height", 0.5)).sizeFrom("told"));
    assertThat(small.fraction()).isEqualTo(0.1);
    assertThat(small.sdLog()).isEqualTo(0.6);
    assertThat(
            Objects.requireNonNull(heights(told("mature-height", 40)).sizeFrom("told")).fraction())
        .isEqualTo(1.2);
    assertThat(heights(new FakeBook()).sizeFrom("any")).isNull();
  }

  /** Stock matters for the bearing age of apple and pear, little elsewhere (isu-bearing-age). */
  @Test
  void times_of_stone_fruit_follow_size_less_than_those_of_apple_and_pear() {
    assertThat(slope(Crop.APPLE, Measure.TIME)).isCloseTo(1.5, EXACT);
    assertThat(slope(Crop.EUROPEAN_PEAR, Measure.LIFE)).isCloseTo(1.5, EXACT);
    assertThat(slope(Crop.ASIAN_PEAR, Measure.TIME)).isCloseTo(1.5, EXACT);
    assertThat(slope(Crop.PEACH, Measure.TIME)).isCloseTo(0.6, EXACT);
    assertThat(slope(Crop.SWEET_CHERRY, Measure.LIFE)).isCloseTo(0.6, EXACT);
    assertThat(slope(Crop.PEACH, Measure.YIELD)).isCloseTo(1.5, EXACT);
  }

  private static double slope(Crop crop, Measure measure) {
    FakeBook book = new FakeBook();
    double[] slopeAndShifts = new double[measure.regimes()];
    slopeAndShifts[0] = 1.5;
    Curve.Common common = new Curve.Common(1, 1, slopeAndShifts, 0.2);
    return Curve.of(book, crop, measure, Sizes.of(book, crop), common).slope();
  }

  @Test
  void a_stock_rated_early_bears_an_eighth_sooner_for_each_level() {
    FakeBook book =
        new FakeBook()
            .stock(Crop.APPLE, "early", Kind.CLONE)
            .precocity(Crop.APPLE, "early", 1, 1, 1, 5);
    Curve.Common common = new Curve.Common(1, 0.5, new double[] {1.5, 0.6}, 0.2);
    Curve curve = Curve.of(book, Crop.APPLE, Measure.TIME, Sizes.of(book, Crop.APPLE), common);
    double early = curve.part("early", HALF, false, 0).value().mu();
    double any = curve.part("any", HALF, false, 0).value().mu();
    // 2.25 levels up from the lowest, so 0.75 above the middle of four.
    assertThat(early - any).isCloseTo(-0.12 * 0.75, EXACT);
  }

  @Test
  void lines_of_all_crops_share_a_slope_and_tell_how_far_apart_they_lie() {
    FakeBook book = new FakeBook();
    line(book, Crop.APPLE, 9);
    line(book, Crop.PEACH, 4);
    Curve.Common common = Curve.common(book, Measure.HEIGHT, sizes(book));
    assertThat(common.interceptMean()).isCloseTo(Math.log(6), within(2e-3));
    assertThat(common.interceptSd()).isCloseTo(Math.log(9.0 / 4) / 2, within(2e-3));
    assertThat(common.slopeAndShifts()[0]).isCloseTo(2, within(1e-2));
    assertThat(common.residualSd()).as("points on the line narrow it").isBetween(0.05, 0.2);

    FakeBook alike = new FakeBook();
    line(alike, Crop.APPLE, 9);
    line(alike, Crop.PEACH, 9);
    assertThat(Curve.common(alike, Measure.HEIGHT, sizes(alike)).interceptSd()).isEqualTo(0.3);
  }

  @Test
  void a_crop_with_three_points_answers_by_size() {
    FakeBook book = new FakeBook();
    line(book, Crop.APPLE, 9);
    Curve curve = heights(book);
    assertThat(curve.points()).isEqualTo(5);
    assertThat(curve.residualSd()).isBetween(0.05, 0.1);
    Part part = curve.part("any", HALF, false, 0);
    assertThat(part.basis()).isEqualTo(Part.Basis.SIZE);
    assertThat(part.value().median()).isCloseTo(9 * Math.exp(-1), within(0.02));
    assertThat(curve.part("any", Size.usual(0.5, 0.1), false, 0).basis())
        .as("nothing is known of its size")
        .isEqualTo(Part.Basis.CROP);
  }

  private static void line(FakeBook book, Crop crop, double standardM) {
    for (double f : new double[] {0.3, 0.45, 0.6, 0.75, 0.9}) {
      String id = "s-" + Math.round(100 * f) + "-" + crop.ordinal();
      book.stock(crop, id, Kind.CLONE)
          .quantity(crop, id, "size-percent-of-standard", 100 * f, 0.02)
          .quantity(crop, id, "mature-height", standardM * Math.exp(2 * (f - 1)), 0.02);
    }
  }

  private static Map<Crop, Sizes> sizes(FakeBook book) {
    Map<Crop, Sizes> sizes = new EnumMap<>(Crop.class);
    for (Crop crop : Crop.values()) sizes.put(crop, Sizes.of(book, crop));
    return sizes;
  }
}
