package org.understock.evidence.pooling;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.InputStream;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * The pooling kernels against R 4.2.2 with metafor 3.8-1 and lme4 1.1-31 (pooling-cases.json: every case names its data set, model and call), among
 * them published numbers: the BCG trials as printed by metafor, Senn's diabetes network, the 2010 Fuji planting of 31 stocks at six sites.
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

  /** A case's data with its sites and stocks as indices. */
  private record Table(List<String> stocks, int[] site, int[] stock, double[] y, double[] v) {
    static Table of(JsonNode data, boolean log) {
      Map<String, Integer> sites = new LinkedHashMap<>();
      Map<String, Integer> stocks = new LinkedHashMap<>();
      int n = data.size();
      int[] site = new int[n];
      int[] stock = new int[n];
      double[] y = new double[n];
      double[] v = new double[n];
      for (int i = 0; i < n; i++) {
        JsonNode row = data.get(i);
        site[i] = sites.computeIfAbsent(row.get("site").asString(), k -> sites.size());
        stock[i] = stocks.computeIfAbsent(row.get("stock").asString(), k -> stocks.size());
        y[i] = log ? Math.log(row.get("value").asDouble()) : row.get("value").asDouble();
        v[i] = row.get("v").asDouble();
      }
      return new Table(List.copyOf(stocks.keySet()), site, stock, y, v);
    }

    NetworkModel.Fit fit(String reference, OptionalDouble tau2) {
      return NetworkModel.fit(site, stock, y, v, stocks.size(), stocks.indexOf(reference), List.of(), tau2);
    }
  }

  @TestFactory
  List<DynamicTest> stock_models_with_known_variances() {
    List<DynamicTest> tests = new ArrayList<>();
    for (JsonNode one : CASES) {
      if (!one.get("kind").asString().equals("stock model, known variances")) continue;
      tests.add(DynamicTest.dynamicTest(one.get("id").asString(), () -> stockModel(one)));
    }
    assertThat(tests).hasSizeGreaterThanOrEqualTo(10);
    return tests;
  }

  private static void stockModel(JsonNode one) {
    boolean fixed = one.get("tau2_fixed").asBoolean();
    Table table = Table.of(one.get("data"), true);
    NetworkModel.Fit fit = table.fit(one.get("reference").asString(), fixed ? OptionalDouble.of(one.get("tau2").asDouble()) : OptionalDouble.empty());
    assertThat(fit.tau2()).isCloseTo(one.get("tau2").asDouble(), near(one.get("tau2").asDouble()));
    assertThat(fit.degreesOfFreedom()).isEqualTo(one.get("residual_df").asInt());
    if (!fixed && !one.get("tau2_se").isNull()) assertThat(fit.tau2Se()).isCloseTo(one.get("tau2_se").asDouble(), near(one.get("tau2_se").asDouble()));
    for (JsonNode stock : one.get("stocks")) {
      int k = table.stocks().indexOf(stock.get("stock").asString());
      assertThat(fit.estimate()[k]).as(stock.get("stock").asString()).isCloseTo(stock.get("estimate").asDouble(), near(stock.get("estimate").asDouble()));
      double se = stock.get("se").asDouble();
      assertThat(fit.standardError()[k]).isCloseTo(se, near(se));
      double sd = Math.sqrt(se * se + 2 * fit.tau2());
      if (stock.hasNonNull("new_site_ratio_lower_z")) {
        double low = stock.get("new_site_ratio_lower_z").asDouble();
        assertThat(fit.estimate()[k] - 1.959963984540054 * sd).isCloseTo(low, near(low));
      }
    }
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
    double[][] x = new double[n][1];
    int[] own = new int[n];
    List<QuantityPool.Statement> statements = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      y[i] = one.get("y").get(i).asDouble();
      v[i] = one.get("v").get(i).asDouble();
      x[i][0] = 1;
      own[i] = i;
      statements.add(new QuantityPool.Statement(y[i], Math.sqrt(v[i])));
    }
    for (JsonNode fit : one.get("computed")) {
      double tau2 = fit.get("tau2").asDouble();
      double estimate = fit.get("estimate").asDouble();
      if (fit.get("method").asString().equals("REML")) {
        VarianceComponents.Fit reml = VarianceComponents.fit(x, y, v, new int[][] {own});
        assertThat(reml.components()[0]).isCloseTo(tau2, near(tau2));
        assertThat(reml.estimate()[0]).isCloseTo(estimate, near(estimate));
        assertThat(reml.standardError(0)).isCloseTo(fit.get("se").asDouble(), near(fit.get("se").asDouble()));
      } else if (fit.get("method").asString().equals("DL")) {
        double between2 = QuantityPool.between2(List.of(statements));
        QuantityPool.Pooled pooled = QuantityPool.pool(statements, between2);
        assertThat(between2).isCloseTo(tau2, near(tau2));
        assertThat(pooled.mean()).isCloseTo(estimate, near(estimate));
        assertThat(pooled.standardError()).isCloseTo(fit.get("se").asDouble(), near(fit.get("se").asDouble()));
      }
    }
  }

  /** Printed output of metafor for the BCG data: tau² 0.3132, estimate -0.7145, se 0.1798. */
  @Test
  void published_bcg_output_is_met_as_printed() {
    JsonNode one = get("bcg-log-risk-ratio");
    JsonNode printed = one.get("published").get("REML");
    int n = one.get("y").size();
    double[][] x = new double[n][1];
    double[] y = new double[n];
    double[] v = new double[n];
    int[] own = new int[n];
    for (int i = 0; i < n; i++) {
      x[i][0] = 1;
      y[i] = one.get("y").get(i).asDouble();
      v[i] = one.get("v").get(i).asDouble();
      own[i] = i;
    }
    VarianceComponents.Fit fit = VarianceComponents.fit(x, y, v, new int[][] {own});
    assertThat(fit.components()[0]).isCloseTo(printed.get("tau2").asDouble(), within(5e-5));
    assertThat(fit.estimate()[0]).isCloseTo(printed.get("estimate").asDouble(), within(5e-5));
    assertThat(fit.standardError(0)).isCloseTo(printed.get("se").asDouble(), within(5e-5));
  }

  @Test
  void islands_are_reported_and_share_the_variance() {
    JsonNode one = get("disconnected");
    Table table = Table.of(one.get("data"), true);
    NetworkModel.Fit fit = table.fit("ref", OptionalDouble.empty());
    assertThat(fit.tau2()).isCloseTo(one.get("tau2").asDouble(), near(one.get("tau2").asDouble()));
    assertThat(fit.degreesOfFreedom()).isEqualTo(one.get("residual_df").asInt());
    for (JsonNode stock : one.get("main_island")) {
      int k = table.stocks().indexOf(stock.get("stock").asString());
      assertThat(fit.estimate()[k]).isCloseTo(stock.get("estimate").asDouble(), near(stock.get("estimate").asDouble()));
      assertThat(fit.standardError()[k]).isCloseTo(stock.get("se").asDouble(), near(stock.get("se").asDouble()));
    }
    assertThat(fit.estimate()[table.stocks().indexOf("t1")]).isNaN();
    assertThat(fit.estimate()[table.stocks().indexOf("t2")]).isNaN();
    NetworkModel.Fit other = table.fit("t1", OptionalDouble.empty());
    JsonNode t2 = one.get("other_island_relative_to_t1").get(0);
    assertThat(other.estimate()[table.stocks().indexOf("t2")]).isCloseTo(t2.get("estimate").asDouble(), near(t2.get("estimate").asDouble()));
  }

  /** Senn and others 2013: 26 trials, 53 arms; a contrast-based fit has twice this heterogeneity variance. */
  @Test
  void senn_2013_network_agrees() {
    JsonNode one = get("senn-2013-network");
    Table table = Table.of(one.get("data"), false);
    NetworkModel.Fit fit = table.fit("placebo", OptionalDouble.empty());
    JsonNode arms = one.get("arm_based");
    assertThat(fit.tau2()).isCloseTo(arms.get("tau2").asDouble(), near(arms.get("tau2").asDouble()));
    assertThat(2 * fit.tau2()).isCloseTo(one.get("contrast_based").get("tau2").asDouble(), within(1e-6));
    assertThat(fit.degreesOfFreedom()).isEqualTo(arms.get("residual_df").asInt());
    assertThat(fit.q()).isCloseTo(arms.get("Q").asDouble(), near(arms.get("Q").asDouble()));
    for (JsonNode stock : one.get("stocks")) {
      int k = table.stocks().indexOf(stock.get("stock").asString());
      assertThat(fit.estimate()[k]).isCloseTo(stock.get("estimate").asDouble(), near(stock.get("estimate").asDouble()));
      assertThat(fit.standardError()[k]).isCloseTo(stock.get("se").asDouble(), near(stock.get("se").asDouble()));
    }
  }

  /** The variance of a stock under a scion beside that of a site: agreement to 1e-5, which is what the reference's optimiser gives. */
  @Test
  void two_level_heterogeneity_agrees() {
    JsonNode one = get("two-level-heterogeneity");
    JsonNode data = one.get("data");
    int n = data.size();
    Map<String, Integer> columns = new LinkedHashMap<>();
    Map<String, Integer> pairs = new LinkedHashMap<>();
    for (JsonNode row : data) columns.computeIfAbsent("site " + row.get("site").asString(), k -> columns.size());
    for (JsonNode row : data) {
      if (!row.get("stock").asString().equals("ref")) columns.computeIfAbsent("stock " + row.get("stock").asString(), k -> columns.size());
    }
    double[][] x = new double[n][columns.size()];
    double[] y = new double[n];
    double[] v = new double[n];
    int[][] groups = new int[2][n];
    for (int i = 0; i < n; i++) {
      JsonNode row = data.get(i);
      x[i][columns.get("site " + row.get("site").asString())] = 1;
      Integer stock = columns.get("stock " + row.get("stock").asString());
      if (stock != null) x[i][stock] = 1;
      y[i] = row.get("y").asDouble();
      v[i] = row.get("v").asDouble();
      groups[0][i] = pairs.computeIfAbsent(row.get("scion").asString() + row.get("stock").asString(), k -> pairs.size());
      groups[1][i] = i;
    }
    VarianceComponents.Fit fit = VarianceComponents.fit(x, y, v, groups);
    assertThat(fit.components()[0]).isCloseTo(one.get("omega2").asDouble(), within(1e-6));
    assertThat(fit.components()[1]).isCloseTo(one.get("tau2").asDouble(), within(1e-6));
    for (JsonNode stock : one.get("stocks")) {
      int k = columns.get("stock " + stock.get("stock").asString());
      assertThat(fit.estimate()[k]).isCloseTo(stock.get("estimate").asDouble(), within(1e-5));
      assertThat(fit.standardError(k)).isCloseTo(stock.get("se").asDouble(), within(1e-5));
    }
  }

  @Test
  void printed_spreads_become_standard_errors() {
    JsonNode one = get("spread-to-se");
    for (JsonNode row : one.get("q95")) {
      double df = row.get("infinite_df").asBoolean() ? Double.POSITIVE_INFINITY : row.get("df").asDouble();
      assertThat(StudentizedRange.quantile(0.95, row.get("k").asInt(), df)).isCloseTo(row.get("q").asDouble(), near(row.get("q").asDouble()));
    }
    for (JsonNode row : one.get("t975")) {
      double t = row.get("t").asDouble();
      double se = SamplingVariance.standardError(org.understock.evidence.Context.Spread.Kind.LSD, 1, 5, row.get("df").asDouble(), 4);
      assertThat(1 / (se * Math.sqrt(2))).isCloseTo(t, near(t));
    }
    assertThat(SamplingVariance.standardError(org.understock.evidence.Context.Spread.Kind.SD, 3, 5, 10, 9)).isEqualTo(1.0);
  }

  @Test
  void independent_summaries_join_by_inverse_variance() {
    for (JsonNode row : get("normal-join").get("rows")) {
      QuantityPool.Pooled joined = QuantityPool.pool(List.of(new QuantityPool.Statement(row.get("mean1").asDouble(), row.get("sd1").asDouble()),
          new QuantityPool.Statement(row.get("mean2").asDouble(), row.get("sd2").asDouble())), 0);
      assertThat(joined.mean()).isCloseTo(row.get("mean").asDouble(), near(row.get("mean").asDouble()));
      assertThat(joined.standardError()).isCloseTo(row.get("sd").asDouble(), near(row.get("sd").asDouble()));
    }
  }
}
