package org.understock.planting;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.understock.growth.Density;
import org.understock.trait.Refusal;

/**
 * Laws of rows on any plot, and published densities on large ones. Distances are reckoned here from
 * the corners, without the engine's geometry.
 */
class RowsLawsTest {
  private static final double SLIP = Ground.TOLERANCE_M + 1e-6;

  static Stream<Long> seeds() {
    return new SplittableRandom(7).longs(150).boxed();
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void no_tree_is_too_near_another_the_outline_or_a_hole(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    Plot plot = star(random);
    Rows.Spaced spaced =
        new Rows.Spaced(
            random.nextDouble(2, 7),
            random.nextDouble(1, 6),
            random.nextDouble(0, 4),
            random.nextDouble(0, 3),
            random.nextDouble(0, 6));
    Rows rows = Rows.lay(plot, spaced, random.nextDouble(0, 360));
    double[] own = {spaced.inRowM(), 1.7 * spaced.inRowM()};
    int[] kinds = new int[rows.trees];
    if (random.nextBoolean()) for (int i = 0; i < kinds.length; i++) kinds[i] = random.nextInt(2);
    Standing trees = Standing.fill(rows, kinds, own);
    if (java.util.Arrays.stream(kinds).sum() == 0) assertThat(trees.size).isEqualTo(rows.trees);
    for (int i = 0; i < trees.size; i++) {
      Point place = trees.place(i);
      assertThat(inside(plot.outline(), place)).isTrue();
      assertThat(distance(plot.outline(), place)).isGreaterThanOrEqualTo(spaced.boundaryM() - SLIP);
      for (List<Point> hole : plot.holes()) {
        assertThat(inside(hole, place)).isFalse();
        assertThat(distance(hole, place)).isGreaterThanOrEqualTo(spaced.holeM() - SLIP);
      }
      for (int j = 0; j < i; j++) {
        double least =
            trees.row[i] == trees.row[j] ? (own[kinds[i]] + own[kinds[j]]) / 2 : spaced.rowM();
        if (trees.row[i] != trees.row[j] || j == i - 1)
          assertThat(place.to(trees.place(j))).isGreaterThanOrEqualTo(least - 1e-6);
      }
    }
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void rows_and_positions_count_up_and_a_turned_plot_holds_the_same_planting(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    Plot plot = star(random);
    Rows.Spaced spaced = new Rows.Spaced(3.1, 1.9, 1, 1, 2);
    double bearing = random.nextInt(0, 180);
    Rows rows = Rows.lay(plot, spaced, bearing);
    Standing trees = Standing.fill(rows, new int[rows.trees], new double[] {1.9});
    for (int i = 1; i < trees.size; i++) {
      if (trees.row[i] == trees.row[i - 1])
        assertThat(trees.position(i)).isEqualTo(trees.position(i - 1) + 1);
      else
        assertThat(List.of(trees.row[i], trees.position(i)))
            .isEqualTo(List.of(trees.row[i - 1] + 1, 1));
    }
    Plot turned =
        new Plot(
            quarter(plot.outline()),
            plot.holes().stream().map(RowsLawsTest::quarter).toList(),
            null,
            null,
            null,
            0);
    assertThat(Rows.lay(turned, spaced, bearing + 90).trees).isEqualTo(rows.trees);
  }

  /**
   * reference: trees per hectare, NC-140 2010 plans and Kains table 17 among them; edges cost less
   * than a row and a tree each way.
   */
  @ParameterizedTest
  @CsvSource({
    "4,1,2500",
    "3.5,0.8,3571.4286",
    "5,2.5,800",
    "6,6,277.7778",
    "3.6576,1.2192,2242.4813",
    "4.2672,1.8288,1281.4179",
    "6.096,6.096,269.0978"
  })
  void a_large_plot_holds_the_published_number_of_trees(
      double rowM, double inRowM, double treesPerHa) {
    assertThat(Density.rectangular(rowM, inRowM)).isCloseTo(treesPerHa, within(1e-4));
    Rows rows = Rows.lay(Plot.rectangle(400, 300, null), new Rows.Spaced(rowM, inRowM, 0, 0, 0), 0);
    assertThat((double) rows.trees)
        .isBetween(12 * treesPerHa, (400 + rowM) * (300 + inRowM) / 10_000 * treesPerHa);
    Rows within =
        Rows.lay(
            Plot.rectangle(400, 300, null),
            new Rows.Spaced(rowM, inRowM, rowM / 2, rowM / 2, rowM / 2),
            0);
    assertThat(within.trees * rowM * inRowM).isLessThanOrEqualTo(400 * 300);
  }

  @Test
  void a_plot_exactly_as_wide_as_its_trees_holds_them() {
    assertThat(
            Rows.lay(Plot.rectangle(2.6, 2.6, null), new Rows.Spaced(4.6, 2.6, 1.3, 1.3, 0), 0)
                .trees)
        .isEqualTo(1);
    assertThat(
            Rows.lay(Plot.rectangle(7.2, 7.8, null), new Rows.Spaced(4.6, 2.6, 1.3, 1.3, 0), 0)
                .trees)
        .isEqualTo(6);
    assertThat(
            Rows.lay(Plot.rectangle(2.5, 2.6, null), new Rows.Spaced(4.6, 2.6, 1.3, 1.3, 0), 0)
                .trees)
        .isZero();
  }

  @Test
  void plots_that_are_none_are_refused_with_what_is_wrong() {
    assertRefused(
        "plot.outline crosses or touches itself near x 5.0, y 5.0",
        () -> plot(List.of(p(0, 0), p(10, 10), p(10, 0), p(0, 10))));
    assertRefused("plot.outline", () -> plot(List.of(p(0, 0), p(5, 5), p(10, 10))));
    assertRefused("3 and 500 different corners", () -> plot(List.of(p(0, 0), p(5, 5), p(0, 0))));
    assertRefused(
        "plot.outline[1].xM is NaN", () -> plot(List.of(p(0, 0), p(Double.NaN, 5), p(0, 5))));
    assertRefused(
        "plot.holes[0] is not inside plot.outline",
        () -> plot(Plot.corners(10, 10), List.of(p(8, 8), p(12, 8), p(12, 9))));
    assertRefused(
        "plot.holes[1] touches plot.holes[0]",
        () ->
            plot(
                Plot.corners(10, 10),
                List.of(p(1, 1), p(5, 1), p(5, 5)),
                List.of(p(2, 1.5), p(4, 1.5), p(4, 3))));
    assertRefused("plot.widthM is 0.2", () -> Plot.rectangle(0.2, 5, null));
  }

  private static void assertRefused(
      String message, org.assertj.core.api.ThrowableAssert.ThrowingCallable call) {
    assertThatThrownBy(call).isInstanceOf(Refusal.class).hasMessageContaining(message);
  }

  @SafeVarargs
  private static Plot plot(List<Point> outline, List<Point>... holes) {
    return new Plot(outline, List.of(holes), null, null, null, 0);
  }

  private static Point p(double x, double y) {
    return new Point(x, y);
  }

  /**
   * A plot with bays: corners at any distance round a middle, a hole of three to six corners well
   * inside half of the time.
   */
  private static Plot star(SplittableRandom random) {
    double size = random.nextDouble(8, 40);
    List<Point> outline = ring(random, random.nextInt(4, 12), size / 2.5, size, 0, 0);
    return random.nextBoolean()
        ? plot(outline)
        : plot(outline, ring(random, random.nextInt(4, 7), 0.5, size / 6, 0, 0));
  }

  private static List<Point> ring(
      SplittableRandom random, int corners, double nearest, double farthest, double x, double y) {
    List<Point> ring = new ArrayList<>();
    for (int k = 0; k < corners; k++) {
      double angle = 2 * Math.PI * k / corners;
      double out = random.nextDouble(nearest, farthest);
      ring.add(p(x + out * Math.cos(angle), y + out * Math.sin(angle)));
    }
    return ring;
  }

  /** A quarter turn clockwise: what pointed along y points along x. */
  private static List<Point> quarter(List<Point> ring) {
    return ring.stream().map(c -> p(c.yM(), -c.xM())).toList();
  }

  private static boolean inside(List<Point> ring, Point place) {
    boolean inside = false;
    for (int k = 0; k < ring.size(); k++) {
      Point a = ring.get(k);
      Point b = ring.get((k + 1) % ring.size());
      boolean level = a.yM() > place.yM() != b.yM() > place.yM();
      if (level
          && place.xM() < a.xM() + (place.yM() - a.yM()) / (b.yM() - a.yM()) * (b.xM() - a.xM()))
        inside = !inside;
    }
    return inside || distance(ring, place) < SLIP;
  }

  private static double distance(List<Point> ring, Point place) {
    double least = Double.POSITIVE_INFINITY;
    for (int k = 0; k < ring.size(); k++) {
      Point a = ring.get(k);
      Point b = ring.get((k + 1) % ring.size());
      double dx = b.xM() - a.xM();
      double dy = b.yM() - a.yM();
      double t =
          Math.max(
              0,
              Math.min(
                  1,
                  ((place.xM() - a.xM()) * dx + (place.yM() - a.yM()) * dy) / (dx * dx + dy * dy)));
      least = Math.min(least, place.to(p(a.xM() + t * dx, a.yM() + t * dy)));
    }
    return least;
  }
}
