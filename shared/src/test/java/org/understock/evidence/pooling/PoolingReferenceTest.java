package org.understock.evidence.pooling;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * The pooling kernels against R 4.2.2 with metafor 3.8-1 and lme4 1.1-31 (pooling-cases.json: every
 * case names its data set, model and call), among them published numbers: the BCG trials as printed
 * by metafor, Senn's diabetes network, the 2010 Fuji planting of 31 stocks at six sites.
 */
class PoolingReferenceTest {
  private static final JsonNode CASES = read();

  private static JsonNode read() {
    try (InputStream in = PoolingReferenceTest.class.getResourceAsStream("pooling-cases.json")) {
      return JsonMapper.shared().readTree(in).get("cases");
    } catch (java.io.IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private static JsonNode get(String id) {
    for (JsonNode one : CASES) if (one.get("id").asString().equals(id)) return one;
    throw new AssertionError("no case " + id);
  }

  /** Relative 1e-6, or absolute 1e-8 near zero. */
  private static Offset<Double> near(double expected) {
    return within(Math.max(1e-6 * Math.abs(expected), 1e-8));
  }

  @TestFactory
  List<DynamicTest> random_effects_means() {
    List<DynamicTest> tests = new ArrayList<>();
    for (JsonNode one : CASES) {
      if (!one.get("kind").asString().equals("random-effects mean")) continue;
      tests.add(DynamicTest.dynamicTest(one.get("id").asString(), () -> randomMean(one)));
    }
    assertThat(tests).hasSize(3);
    return tests;
  }

  private static void randomMean(JsonNode one) {
    int n = one.get("y").size();
    double[] y = new double[n];
    double[] v = new double[n];
    List<QuantityPool.Statement> statements = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      y[i] = one.get("y").get(i).asDouble();
      v[i] = one.get("v").get(i).asDouble();
      statements.add(new QuantityPool.Statement(y[i], Math.sqrt(v[i])));
    }
    for (JsonNode fit : one.get("computed")) {
      double tau2 = fit.get("tau2").asDouble();
      double estimate = fit.get("estimate").asDouble();
      if (fit.get("method").asString().equals("REML")) {
        StratifiedModel.Evaluation reml = mean(y, v);
        assertThat(reml.tau2()).isCloseTo(tau2, near(tau2));
        assertThat(reml.intercepts()[0]).isCloseTo(estimate, near(estimate));
        assertThat(Math.sqrt(1 / reml.interceptWeights()[0]))
            .isCloseTo(fit.get("se").asDouble(), near(fit.get("se").asDouble()));
      } else if (fit.get("method").asString().equals("DL")) {
        double between2 = QuantityPool.between2(List.of(statements));
        QuantityPool.Pooled pooled = QuantityPool.pool(statements, between2);
        assertThat(between2).isCloseTo(tau2, near(tau2));
        assertThat(pooled.mean()).isCloseTo(estimate, near(estimate));
        assertThat(pooled.standardError())
            .isCloseTo(fit.get("se").asDouble(), near(fit.get("se").asDouble()));
      }
    }
  }

  /** The usual random-effects mean: one stratum, no treatments but the one at 0. */
  private static StratifiedModel.Evaluation mean(double[] y, double[] v) {
    double[] whole = new double[y.length];
    java.util.Arrays.fill(whole, 1);
    int[] none = new int[y.length];
    return Reml.fit(
        new StratifiedModel(
            new StratifiedModel.Rows(none, none, none, y, v, whole, -1), new int[] {-1}, false));
  }

  /** Printed output of metafor for the BCG data: tau² 0.3132, estimate -0.7145, se 0.1798. */
  @Test
  void published_bcg_output_is_met_as_printed() {
    JsonNode one = get("bcg-log-risk-ratio");
    JsonNode printed = one.get("published").get("REML");
    int n = one.get("y").size();
    double[] y = new double[n];
    double[] v = new double[n];
    for (int i = 0; i < n; i++) {
      y[i] = one.get("y").get(i).asDouble();
      v[i] = one.get("v").get(i).asDouble();
    }
    StratifiedModel.Evaluation fit = mean(y, v);
    assertThat(fit.tau2()).isCloseTo(printed.get("tau2").asDouble(), within(5e-5));
    assertThat(fit.intercepts()[0]).isCloseTo(printed.get("estimate").asDouble(), within(5e-5));
    assertThat(Math.sqrt(1 / fit.interceptWeights()[0]))
        .isCloseTo(printed.get("se").asDouble(), within(5e-5));
  }

  @Test
  void printed_spreads_become_standard_errors() {
    JsonNode one = get("spread-to-se");
    for (JsonNode row : one.get("q95")) {
      double df =
          row.get("infinite_df").asBoolean() ? Double.POSITIVE_INFINITY : row.get("df").asDouble();
      assertThat(StudentizedRange.quantile(0.95, row.get("k").asInt(), df))
          .isCloseTo(row.get("q").asDouble(), near(row.get("q").asDouble()));
    }
    for (JsonNode row : one.get("t975")) {
      double t = row.get("t").asDouble();
      double se =
          SamplingVariance.standardError(
              org.understock.evidence.Context.Spread.Kind.LSD, 1, 5, row.get("df").asDouble(), 4);
      assertThat(1 / (se * Math.sqrt(2))).isCloseTo(t, near(t));
    }
    assertThat(
            SamplingVariance.standardError(
                org.understock.evidence.Context.Spread.Kind.SD, 3, 5, 10, 9))
        .isEqualTo(1.0);
  }

  @Test
  void independent_summaries_join_by_inverse_variance() {
    for (JsonNode row : get("normal-join").get("rows")) {
      QuantityPool.Pooled joined =
          QuantityPool.pool(
              List.of(
                  new QuantityPool.Statement(
                      row.get("mean1").asDouble(), row.get("sd1").asDouble()),
                  new QuantityPool.Statement(
                      row.get("mean2").asDouble(), row.get("sd2").asDouble())),
              0);
      assertThat(joined.mean())
          .isCloseTo(row.get("mean").asDouble(), near(row.get("mean").asDouble()));
      assertThat(joined.standardError())
          .isCloseTo(row.get("sd").asDouble(), near(row.get("sd").asDouble()));
    }
  }
}
