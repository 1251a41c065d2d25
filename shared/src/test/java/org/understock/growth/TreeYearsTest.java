package org.understock.growth;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** Holds the percentiles that are picked out of bins to those of all trees in order. */
class TreeYearsTest {
  private static final int YEARS = 60;

  @Test
  void percentiles_are_those_of_the_trees_in_order() {
    Random random = new Random(7);
    for (int k = 0; k < 200; k++) check(course(random));
  }

  /** One tree like another, and trees of which some never bear within a lifetime. */
  @Test
  void courses_without_spread_and_with_a_wide_one() {
    LogNormal five = new LogNormal(Math.log(5), 0);
    check(new TreeYears.Course(five, five.times(2), new LogNormal(Math.log(30), 0), 0));
    check(
        new TreeYears.Course(
            new LogNormal(Math.log(5), 1.5),
            new LogNormal(Math.log(12), 1.5),
            new LogNormal(Math.log(20), 1.5),
            2.5));
  }

  @Test
  void a_kept_course_tells_more_years_when_they_are_asked_for() {
    TreeYears.Course course = course(new Random(11));
    double[][] ten = TreeYears.of(course, 10);
    double[][] thirty = TreeYears.of(course, 30);
    assertThat(thirty).hasDimensions(30, 3);
    assertThat(Arrays.copyOf(thirty, 10)).isDeepEqualTo(Arrays.copyOf(ten, 10));
    assertThat(thirty).isDeepEqualTo(TreeYears.counted(course, 30));
    assertThat(TreeYears.of(course, 20)).as("more than asked for is kept").isSameAs(thirty);
  }

  private static TreeYears.Course course(Random random) {
    double first = 1.5 + 8 * random.nextDouble();
    return new TreeYears.Course(
        new LogNormal(Math.log(first), 0.05 + 0.5 * random.nextDouble()),
        new LogNormal(Math.log(first + 6 * random.nextDouble()), 0.4 * random.nextDouble()),
        new LogNormal(Math.log(10 + 50 * random.nextDouble()), 0.05 + 0.5 * random.nextDouble()),
        0.05 + random.nextDouble());
  }

  private static void check(TreeYears.Course course) {
    double[][] parts = TreeYears.counted(course, YEARS);
    for (int year = 1; year <= YEARS; year++) {
      int now = year;
      double[] sorted =
          IntStream.range(0, Trees.COUNT)
              .mapToDouble(
                  i ->
                      Expectations.course(
                              course.firstCrop().at(Trees.score(i, 0)),
                              course.fullCrop().at(Trees.score(i, 0)),
                              course.life().at(Trees.score(i, 1)),
                              Math.exp(course.yieldSigma() * Trees.score(i, 2)))
                          .cropKg(now))
              .sorted()
              .toArray();
      double[] expected = {
        sorted[Trees.COUNT / 10], sorted[Trees.COUNT / 2], sorted[Trees.COUNT * 9 / 10]
      };
      for (int p = 0; p < 3; p++)
        assertThat(parts[year - 1][p])
            .as("%s in year %d", course, year)
            .isCloseTo(expected[p], within(1e-9 * (1 + expected[p])));
    }
  }
}
