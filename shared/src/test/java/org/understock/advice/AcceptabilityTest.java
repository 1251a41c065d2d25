package org.understock.advice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.InputStream;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.function.Predicate;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.understock.trait.Refusal;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Reference: {@code smaa-case.json}; exact polygons for fixed values, quadrature for normal ones,
 * equations of SMAA-2 (Lahdelma and Salminen 2001). The kernel counts draws, so it is compared
 * within four standard errors of a share of {@value #DRAWS} draws.
 */
class AcceptabilityTest {
  private static final int DRAWS = 40_000;
  private static final double FOUR_SE = 4 * 0.5 / Math.sqrt(DRAWS);
  private static final JsonNode CASES = read();

  private static JsonNode read() {
    try (InputStream in = AcceptabilityTest.class.getResourceAsStream("smaa-case.json")) {
      return JsonMapper.shared().readTree(in).get("cases");
    } catch (java.io.IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private static JsonNode byId(String id) {
    for (JsonNode c : CASES) if (c.get("id").asString().equals(id)) return c;
    throw new IllegalArgumentException(id);
  }

  @ParameterizedTest(name = "{0}")
  @ValueSource(
      strings = {
        "two-criteria-exact",
        "three-criteria-exact",
        "dominated-option",
        "three-criteria-ordered-weights",
        "three-criteria-bounded-weights"
      })
  void fixed_values_agree_with_exact_polygons(String id) {
    JsonNode c = byId(id);
    List<String> names = List.copyOf(c.get("values").propertyNames());
    double[][] fixed =
        names.stream().map(n -> numbers(c.get("values").get(n))).toArray(double[][]::new);
    double[][] weights = weights(id, fixed[0].length);
    double[][][] values = new double[DRAWS][][];
    Arrays.fill(values, fixed);
    check(c, names, Acceptability.of(values, weights));
  }

  @ParameterizedTest(name = "{0}")
  @ValueSource(strings = {"gaussian-uniform-weights-2x2", "gaussian-uniform-weights-3x3"})
  void normal_values_agree_with_quadrature(String id) {
    JsonNode c = byId(id);
    List<String> names = List.copyOf(c.get("options").propertyNames());
    int criteria = c.get("options").get(names.get(0)).get("mean").size();
    check(
        c,
        names,
        Acceptability.of(normal(c.get("options"), names, criteria), weights(id, criteria)));
  }

  /**
   * Two options with normal values and fixed weights: P(A first) = Φ(Σ w (mA − mB)/√Σ w² (sA² +
   * sB²)).
   */
  @Test
  void fixed_weights_agree_with_the_closed_form() {
    JsonNode c = byId("gaussian-fixed-weights");
    Acceptability kernel =
        Acceptability.of(normal(c.get("options"), List.of("A", "B"), 2), weights("any", 2));
    for (JsonNode row : c.get("rows")) {
      double w1 = row.get("w1").asDouble();
      assertThat(kernel.firstShare(0, new double[] {w1, 1 - w1}))
          .isCloseTo(row.get("p_A_first").asDouble(), within(FOUR_SE));
    }
  }

  @Test
  void equal_options_share_the_better_rank() {
    JsonNode c = byId("ties");
    double[][] fixed = {
      numbers(c.get("values").get("A")),
      numbers(c.get("values").get("B")),
      numbers(c.get("values").get("C"))
    };
    Acceptability kernel =
        Acceptability.of(
            new double[][][] {fixed, fixed}, new double[][] {{0.25, 0.75}, {0.5, 0.5}});
    assertThat(kernel.rankAcceptability(0)).containsExactly(1, 0, 0);
    assertThat(kernel.rankAcceptability(1)).containsExactly(1, 0, 0);
    assertThat(kernel.rankAcceptability(2)).containsExactly(0, 0, 1);
    assertThat(kernel.pairwiseWinning(0, 1)).isZero();
    assertThat(kernel.centralWeights(2)).isEmpty();
    assertThat(kernel.confidenceFactor(2)).isEmpty();
  }

  @Test
  void draws_of_values_and_weights_must_match() {
    assertThatThrownBy(() -> Acceptability.of(new double[][][] {{{1}}}, new double[][] {{1}, {1}}))
        .isInstanceOf(Refusal.Conflict.class);
    assertThatThrownBy(() -> Acceptability.of(new double[0][][], new double[0][]))
        .isInstanceOf(Refusal.Conflict.class);
  }

  private static void check(JsonNode expected, List<String> names, Acceptability kernel) {
    for (int i = 0; i < names.size(); i++) {
      String name = names.get(i);
      assertThat(kernel.rankAcceptability(i))
          .as(name)
          .containsExactly(numbers(expected.get("rank_acceptability").get(name)), within(FOUR_SE));
      checkCentral(expected, name, kernel, i);
      if (expected.has("pairwise_winning")) {
        double[] row = numbers(expected.get("pairwise_winning").get(name));
        for (int k = 0; k < row.length; k++)
          assertThat(kernel.pairwiseWinning(i, k)).isCloseTo(row[k], within(FOUR_SE));
      }
      if (expected.has("holistic_acceptability")) {
        JsonNode holistic = expected.get("holistic_acceptability");
        assertThat(kernel.holistic(i, Acceptability.linearMetaWeights(names.size())))
            .isCloseTo(holistic.get("linear").get(name).asDouble(), within(FOUR_SE));
        assertThat(kernel.holistic(i, Acceptability.centroidMetaWeights(names.size())))
            .isCloseTo(holistic.get("centroid").get(name).asDouble(), within(FOUR_SE));
      }
    }
  }

  /* A central weight is a mean over b N draws: its standard error is at most 0.5/√(b N). Confidence moves with it, so it gets twice the room. */
  private static void checkCentral(JsonNode expected, String name, Acceptability kernel, int i) {
    JsonNode central = expected.get("central_weights").get(name);
    Optional<double[]> found = kernel.centralWeights(i);
    if (central.get(0).isNull()) {
      assertThat(found).as(name).isEmpty();
      return;
    }
    double share = expected.get("rank_acceptability").get(name).get(0).asDouble();
    double room = Math.max(FOUR_SE, 4 * 0.3 / Math.sqrt(share * DRAWS));
    assertThat(found.orElseThrow()).as(name).containsExactly(numbers(central), within(room));
    if (expected.has("confidence_factor")) {
      assertThat(kernel.confidenceFactor(i).orElseThrow())
          .isCloseTo(expected.get("confidence_factor").get(name).asDouble(), within(2 * FOUR_SE));
    }
    if (!expected.has("cross_confidence")) return;
    int k = 0;
    for (String other : expected.get("cross_confidence").propertyNames()) {
      double value = expected.get("cross_confidence").get(name).get(other).asDouble();
      assertThat(kernel.crossConfidence(k, i).orElseThrow())
          .as(name + " lends to " + other)
          .isCloseTo(value, within(2 * FOUR_SE));
      k++;
    }
  }

  /**
   * Weights uniform on the simplex (normalised exponentials), sorted or kept inside bounds as the
   * case says; seeded.
   */
  private static double[][] weights(String id, int criteria) {
    Predicate<double[]> kept =
        w ->
            !id.equals("three-criteria-bounded-weights")
                || w[0] >= 0.2 && w[0] <= 0.5 && w[1] >= 0.1 && w[1] <= 0.6;
    SplittableRandom random = new SplittableRandom(20);
    List<double[]> draws = new ArrayList<>();
    while (draws.size() < DRAWS) {
      double[] w = new double[criteria];
      double sum = 0;
      for (int j = 0; j < criteria; j++) sum += w[j] = -Math.log(1 - random.nextDouble());
      for (int j = 0; j < criteria; j++) w[j] /= sum;
      if (id.equals("three-criteria-ordered-weights")) {
        Arrays.sort(w);
        double smallest = w[0];
        w[0] = w[2];
        w[2] = smallest;
      }
      if (kept.test(w)) draws.add(w);
    }
    return draws.toArray(double[][]::new);
  }

  private static double[][][] normal(JsonNode options, List<String> names, int criteria) {
    SplittableRandom random = new SplittableRandom(7);
    NormalDistribution normal = NormalDistribution.of(0, 1);
    double[][][] values = new double[DRAWS][names.size()][criteria];
    for (double[][] draw : values) {
      for (int i = 0; i < draw.length; i++) {
        JsonNode option = options.get(names.get(i));
        for (int j = 0; j < criteria; j++) {
          double z = normal.inverseCumulativeProbability(random.nextDouble(1e-12, 1));
          draw[i][j] =
              option.get("mean").get(j).asDouble() + option.get("sd").get(j).asDouble() * z;
        }
      }
    }
    return values;
  }

  private static double[] numbers(JsonNode array) {
    double[] out = new double[array.size()];
    for (int i = 0; i < out.length; i++) out[i] = array.get(i).asDouble();
    return out;
  }
}
