package org.understock.evidence.pooling;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.understock.trait.Refusal;
import tools.jackson.databind.JsonNode;

class NetworkTest {
  /** The reference file prints 10 significant digits; its τ² stops at a change below 1e-10. */
  private static final double TOLERANCE = 1e-6;

  @ParameterizedTest(name = "{0}")
  @ValueSource(
      strings = {
        "small-incomplete",
        "balanced-closed-form",
        "balanced-zero-tau2",
        "pairs-closed-form",
        "one-site",
        "one-site-tau2-assumed",
        "small-tau2-zero-fixed",
        "fuji-2010-hsd-variances",
        "fuji-2010-site-cv-variances",
        "fuji-2010-common-variance"
      })
  void stock_model_agrees_with_the_reference(String id) {
    JsonNode expected = PoolingReference.byId(id);
    PoolingReference.Table table = PoolingReference.table(expected.get("data"));
    boolean given = expected.get("tau2_fixed").asBoolean();
    Network.Fit fit =
        given
            ? table.network().fit(expected.get("tau2").asDouble(), 0)
            : table.network().fit(false);

    assertThat(fit.tau2()).isCloseTo(expected.get("tau2").asDouble(), within(TOLERANCE));
    assertThat(fit.q()).isCloseTo(expected.get("Q").asDouble(), within(TOLERANCE));
    if (!given && !expected.get("tau2_se").isNull())
      assertThat(fit.tau2StandardError())
          .isCloseTo(expected.get("tau2_se").asDouble(), within(TOLERANCE));
    assertThat(table.network().degreesOfFreedom()).isEqualTo(expected.get("residual_df").asInt());
    if (expected.has("restricted_log_likelihood")) {
      assertThat(fit.logLikelihood())
          .isCloseTo(expected.get("restricted_log_likelihood").asDouble(), within(TOLERANCE));
    }
    int reference = table.of(expected.get("reference").asString());
    JsonNode stocks = expected.get("stocks");
    for (int i = 0; i < stocks.size(); i++) {
      JsonNode stock = stocks.get(i);
      int k = table.of(stock.get("stock").asString());
      assertThat(fit.contrast(k, reference))
          .as(stock.get("stock").asString())
          .isCloseTo(stock.get("estimate").asDouble(), within(TOLERANCE));
      assertThat(fit.standardError(k, reference))
          .isCloseTo(stock.get("se").asDouble(), within(TOLERANCE));
      double newSite = Math.sqrt(Math.pow(fit.standardError(k, reference), 2) + 2 * fit.tau2());
      assertThat(fit.contrast(k, reference) - 1.959963985 * newSite)
          .isCloseTo(stock.get("new_site_ratio_lower_z").asDouble(), within(TOLERANCE));
      if (!expected.has("stock_covariance")) continue;
      for (int j = 0; j < stocks.size(); j++) {
        int other = table.of(stocks.get(j).get("stock").asString());
        assertThat(fit.covariance(k, other, reference))
            .isCloseTo(
                expected.get("stock_covariance").get(i).get(j).asDouble(), within(TOLERANCE));
      }
    }
  }

  @ParameterizedTest(name = "{0}")
  @ValueSource(
      strings = {"small-incomplete", "balanced-closed-form", "fuji-2010-site-cv-variances"})
  void likelihood_profile_agrees_with_the_reference(String id) {
    JsonNode expected = PoolingReference.byId(id);
    PoolingReference.Table table = PoolingReference.table(expected.get("data"));
    for (JsonNode point : expected.get("restricted_log_likelihood_profile")) {
      assertThat(table.network().fit(point.get("tau2").asDouble(), 0).logLikelihood())
          .isCloseTo(point.get("value").asDouble(), within(TOLERANCE));
    }
  }

  /**
   * Five digits: the reference's two-component fits come from a numerical optimiser (see "digits"
   * in the file).
   */
  @Test
  void two_level_model_agrees_with_the_reference() {
    JsonNode expected = PoolingReference.byId("two-level-heterogeneity");
    PoolingReference.Table table = PoolingReference.table(expected.get("data"));
    Network.Fit fit = table.network().fit(true);
    assertThat(fit.tau2()).isCloseTo(expected.get("tau2").asDouble(), within(1e-6));
    assertThat(fit.omega2()).isCloseTo(expected.get("omega2").asDouble(), within(1e-6));
    assertThat(fit.logLikelihood())
        .isCloseTo(expected.get("restricted_log_likelihood").asDouble(), within(1e-6));
    int reference = table.of(expected.get("reference").asString());
    for (JsonNode stock : expected.get("stocks")) {
      int k = table.of(stock.get("stock").asString());
      assertThat(fit.contrast(k, reference))
          .isCloseTo(stock.get("estimate").asDouble(), within(1e-6));
      assertThat(fit.standardError(k, reference))
          .isCloseTo(stock.get("se").asDouble(), within(1e-5));
    }
  }

  @Test
  void islands_are_told_apart_and_share_one_variance() {
    JsonNode expected = PoolingReference.byId("disconnected");
    PoolingReference.Table table = PoolingReference.table(expected.get("data"));
    Network.Fit fit = table.network().fit(false);
    assertThat(fit.tau2()).isCloseTo(expected.get("tau2").asDouble(), within(TOLERANCE));
    assertThat(table.network().degreesOfFreedom()).isEqualTo(expected.get("residual_df").asInt());
    int reference = table.of("ref");
    for (JsonNode stock : expected.get("main_island")) {
      assertThat(fit.contrast(table.of(stock.get("stock").asString()), reference))
          .isCloseTo(stock.get("estimate").asDouble(), within(TOLERANCE));
      assertThat(fit.standardError(table.of(stock.get("stock").asString()), reference))
          .isCloseTo(stock.get("se").asDouble(), within(TOLERANCE));
    }
    JsonNode other = expected.get("other_island_relative_to_t1").get(0);
    assertThat(fit.contrast(table.of("t2"), table.of("t1")))
        .isCloseTo(other.get("estimate").asDouble(), within(TOLERANCE));
    assertThat(fit.standardError(table.of("t2"), table.of("t1")))
        .isCloseTo(other.get("se").asDouble(), within(TOLERANCE));
    assertThatThrownBy(() -> fit.contrast(table.of("t1"), reference))
        .isInstanceOf(Refusal.Conflict.class);
  }

  /**
   * Senn and others (2013), 26 diabetes trials: the arm-based network model returns half the
   * variance of the contrast-based one.
   */
  @Test
  void network_meta_analysis_of_senn_2013() {
    JsonNode expected = PoolingReference.byId("senn-2013-network");
    PoolingReference.Table table = PoolingReference.table(expected.get("data"));
    Network.Fit fit = table.network().fit(false);
    assertThat(fit.tau2())
        .isCloseTo(expected.get("arm_based").get("tau2").asDouble(), within(TOLERANCE));
    assertThat(2 * fit.tau2())
        .isCloseTo(expected.get("contrast_based").get("tau2").asDouble(), within(TOLERANCE));
    assertThat(fit.q()).isCloseTo(expected.get("arm_based").get("Q").asDouble(), within(TOLERANCE));
    for (JsonNode stock : expected.get("stocks")) {
      int k = table.of(stock.get("stock").asString());
      assertThat(fit.contrast(k, table.of("placebo")))
          .isCloseTo(stock.get("estimate").asDouble(), within(TOLERANCE));
      assertThat(fit.standardError(k, table.of("placebo")))
          .isCloseTo(stock.get("se").asDouble(), within(TOLERANCE));
    }
  }

  /** With one common v the model is two-way least squares: residual variance = τ² + v. */
  @Test
  void common_variance_is_ordinary_least_squares() {
    JsonNode expected = PoolingReference.byId("fuji-2010-unknown-variance");
    PoolingReference.Table table =
        PoolingReference.table(PoolingReference.byId("fuji-2010-common-variance").get("data"));
    Network.Fit fit = table.network().fit(false);
    assertThat(fit.tau2() + 0.01)
        .isCloseTo(expected.get("residual_variance").asDouble(), within(TOLERANCE));
    for (JsonNode stock : expected.get("stocks")) {
      assertThat(fit.contrast(table.of(stock.get("stock").asString()), table.of("M.9 NAKBT337")))
          .isCloseTo(stock.get("estimate").asDouble(), within(TOLERANCE));
    }
  }

  /** Stocks met at all of four sites: the effect is the difference of mean logs. */
  @Test
  void complete_block_has_a_closed_form() {
    JsonNode expected = PoolingReference.byId("fuji-2010-complete-block");
    JsonNode data = PoolingReference.byId("fuji-2010-common-variance").get("data");
    java.util.Set<String> sites = java.util.Set.of("ID", "KY", "NC", "UT");
    java.util.Set<String> complete = new java.util.TreeSet<>(java.util.Set.of("M.9 NAKBT337"));
    for (JsonNode stock : expected.get("stocks")) complete.add(stock.get("stock").asString());
    PoolingReference.Table all = PoolingReference.table(data);
    java.util.List<Network.Row> rows = new java.util.ArrayList<>();
    for (int i = 0; i < data.size(); i++) {
      if (sites.contains(data.get(i).get("site").asString())
          && complete.contains(data.get(i).get("stock").asString())) rows.add(all.rows().get(i));
    }
    Network.Fit fit = Network.of(all.stocks().size(), rows).fit(false);
    int compared = 0;
    for (JsonNode stock : expected.get("stocks")) {
      if (!stock.hasNonNull("effect")) continue;
      assertThat(fit.contrast(all.of(stock.get("stock").asString()), all.of("M.9 NAKBT337")))
          .isCloseTo(stock.get("effect").asDouble(), within(TOLERANCE));
      compared++;
    }
    assertThat(compared).isGreaterThan(20);
    assertThat(fit.tau2() + 0.01)
        .isCloseTo(expected.get("residual_mean_square").asDouble(), within(TOLERANCE));
  }
}
