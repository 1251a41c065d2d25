package org.understock.advice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The expected value of partial perfect information against closed forms. */
class PerfectInformationTest {
  private static final NormalDistribution NORMAL = NormalDistribution.of(0, 1);

  /**
   * Unit normal loss integral: phi(t) - t Phi(-t); the value is sd times it at |difference of
   * means|/sd (Raiffa and Schlaifer 1961).
   */
  private static double closedForm(double mean, double sd) {
    double t = Math.abs(mean) / sd;
    return sd * (NORMAL.density(t) - t * NORMAL.cumulativeProbability(-t));
  }

  private static double[][] line(double mean, double sd) {
    double[][] means = new double[PerfectInformation.NODES.length][];
    for (int k = 0; k < means.length; k++)
      means[k] = new double[] {mean + sd * PerfectInformation.NODES[k]};
    return means;
  }

  /**
   * The worked example of the R package voi (vignette): net benefit 0 against p1 - p2 with p1 ~
   * N(1, 1), p2 ~ N(0, 2). Knowing p1, knowing p2, knowing both; the closed forms give 0.0833,
   * 0.3956 and 0.4798.
   */
  @ParameterizedTest
  @CsvSource({
    "1, 1, 0.08331547",
    "1, 2, 0.39559311",
    "1, 2.23606798, 0.47981071",
    "0, 1, 0.39894228",
    "-0.3, 0.7, 0.15452043",
    "2, 0.8, 0.00160331"
  })
  void twoNormalAlternatives(double mean, double sd, double value) {
    assertThat(closedForm(mean, sd)).isCloseTo(value, within(1e-5));
    assertThat(PerfectInformation.ofNormal(line(mean, sd), 0).value())
        .isCloseTo(closedForm(mean, sd), within(0.002 * sd));
  }

  @Test
  void the_chance_of_a_change_is_that_of_the_other_being_better() {
    assertThat(PerfectInformation.ofNormal(line(1, 1), 0).wouldChange())
        .isCloseTo(NORMAL.cumulativeProbability(-1), within(1.0 / 256));
    assertThat(PerfectInformation.ofNormal(line(-1, 1), 0).wouldChange())
        .isCloseTo(NORMAL.cumulativeProbability(-1), within(1.0 / 256));
  }

  /** Two options that depend on one quantity in opposite ways: E max(z, -z) = sqrt(2/pi). */
  @Test
  void two_options_on_one_quantity() {
    double[][] means = new double[PerfectInformation.NODES.length][];
    for (int k = 0; k < means.length; k++)
      means[k] = new double[] {PerfectInformation.NODES[k], -PerfectInformation.NODES[k]};
    assertThat(PerfectInformation.ofNormal(means, Double.NEGATIVE_INFINITY).value())
        .isCloseTo(Math.sqrt(2 / Math.PI), within(0.003));
  }

  @Test
  void states_by_hand() {
    // 0.3 * max(0.9, 0.5) + 0.7 * max(0.2, 0.5) - max(0.3 * 0.9 + 0.7 * 0.2, 0.5) = 0.12
    PerfectInformation.Worth worth =
        PerfectInformation.ofStates(new double[] {0.3, 0.7}, new double[][] {{0.9}, {0.2}}, 0.5);
    assertThat(worth.value()).isCloseTo(0.12, within(1e-12));
    assertThat(worth.wouldChange()).isCloseTo(0.3, within(1e-12));
  }

  @Test
  void what_changes_no_choice_is_worth_exactly_nothing() {
    PerfectInformation.Worth nothing = new PerfectInformation.Worth(0, 0);
    double[] p = {0.1, 0.2, 0.7};
    assertThat(PerfectInformation.ofStates(p, new double[][] {{0.61}, {0.72}, {0.83}}, 0.6))
        .isEqualTo(nothing);
    assertThat(PerfectInformation.ofStates(p, new double[][] {{0.11}, {0.32}, {0.53}}, 0.6))
        .isEqualTo(nothing);
    assertThat(PerfectInformation.ofNormal(line(0.4, 0), 0.6)).isEqualTo(nothing);
  }

  @Test
  void the_more_uncertain_the_more_it_is_worth() {
    double last = 0;
    for (double sd = 0.3; sd <= 3; sd += 0.1) {
      double value = PerfectInformation.ofNormal(line(0.5, sd), 0).value();
      assertThat(value).as("sd %.1f", sd).isGreaterThan(last);
      last = value;
    }
  }

  @Test
  void never_below_nothing_and_never_more_than_knowing_each_option_at_its_best() {
    Random random = new Random(11);
    for (int round = 0; round < 500; round++) {
      double[] p = new double[1 + random.nextInt(6)];
      double sum = 0;
      for (int k = 0; k < p.length; k++) sum += p[k] = random.nextDouble();
      double[][] means = new double[p.length][3];
      double most = random.nextDouble();
      double other = most;
      for (int k = 0; k < p.length; k++) {
        p[k] /= sum;
        for (int a = 0; a < 3; a++) most = Math.max(most, means[k][a] = random.nextDouble());
      }
      assertThat(PerfectInformation.ofStates(p, means, other).value())
          .isBetween(0.0, most - other + 1e-12);
    }
  }
}
