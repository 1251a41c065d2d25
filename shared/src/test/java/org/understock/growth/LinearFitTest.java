package org.understock.growth;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class LinearFitTest {
  private static final LinearFit.Prior OPEN =
      new LinearFit.Prior(new double[] {0, 0}, new double[] {1e4, 1e4}, 0.001, 0.001);

  @Test
  void points_on_a_line_give_the_line() {
    LinearFit fit =
        LinearFit.of(List.of(point(0, 1, 0.01), point(1, 3, 0.01), point(4, 9, 0.04)), OPEN);
    assertThat(fit.coefficient(0)).isCloseTo(1, within(1e-6));
    assertThat(fit.coefficient(1)).isCloseTo(2, within(1e-6));
  }

  /**
   * Weighted least squares in closed form: two groups at x = 0 and x = 1, so the slope is the
   * difference of their weighted means.
   */
  @Test
  void known_variances_weigh_the_points() {
    LinearFit fit =
        LinearFit.of(
            List.of(point(0, 0, 1), point(0, 3, 2), point(1, 5, 1), point(1, 9, 3)),
            new LinearFit.Prior(
                new double[] {0, 0},
                new double[] {1e5, 1e5},
                1e-6,
                1e9)); // residual spread held at nothing
    double mean0 = (0 / 1.0 + 3 / 2.0) / (1 + 0.5);
    double mean1 = (5 / 1.0 + 9 / 3.0) / (1 + 1 / 3.0);
    assertThat(fit.coefficient(0)).isCloseTo(mean0, within(1e-6));
    assertThat(fit.coefficient(1)).isCloseTo(mean1 - mean0, within(1e-6));
    assertThat(fit.standardError(1)).isCloseTo(Math.sqrt(1 / 1.5 + 1 / (4 / 3.0)), within(1e-6));
  }

  @Test
  void without_points_the_prior_stands() {
    LinearFit fit =
        LinearFit.of(
            List.of(),
            new LinearFit.Prior(new double[] {2, 0.5}, new double[] {0.3, 0.2}, 0.25, 3));
    assertThat(fit.at(new double[] {1, 2})).isCloseTo(3, within(1e-12));
    assertThat(fit.varianceAt(new double[] {1, 2})).isCloseTo(0.09 + 4 * 0.04, within(1e-12));
    assertThat(fit.residualSd()).isEqualTo(0.25);
  }

  @Test
  void residual_spread_is_found_beside_known_variances() {
    Random random = new Random(7);
    List<LinearFit.Point> points = new ArrayList<>();
    for (int i = 0; i < 4000; i++) {
      double x = random.nextDouble();
      points.add(
          point(x, 1 + 2 * x + 0.3 * random.nextGaussian() + 0.4 * random.nextGaussian(), 0.16));
    }
    assertThat(
            LinearFit.of(
                    points, new LinearFit.Prior(new double[] {0, 0}, new double[] {10, 10}, 0.1, 3))
                .residualSd())
        .isCloseTo(0.3, within(0.02));
  }

  @Test
  void order_of_points_does_not_matter_and_more_points_narrow() {
    Random random = new Random(11);
    List<LinearFit.Point> points = new ArrayList<>();
    for (int i = 0; i < 40; i++)
      points.add(point(random.nextDouble(), random.nextGaussian(), 0.05));
    LinearFit.Prior prior = new LinearFit.Prior(new double[] {0, 0}, new double[] {10, 10}, 0.3, 3);
    LinearFit straight = LinearFit.of(points, prior);
    LinearFit half = LinearFit.of(points.subList(0, 20), prior);
    Collections.shuffle(points, random);
    LinearFit shuffled = LinearFit.of(points, prior);
    assertThat(shuffled.coefficient(1)).isCloseTo(straight.coefficient(1), within(1e-9));
    assertThat(straight.standardError(1)).isLessThan(half.standardError(1));
  }

  private static LinearFit.Point point(double x, double y, double variance) {
    return new LinearFit.Point(new double[] {1, x}, y, variance);
  }
}
