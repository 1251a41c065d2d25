package org.understock.evidence.pooling;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.understock.evidence.pooling.RandomMean.Summary;
import tools.jackson.databind.JsonNode;

class RandomMeanTest {
  @ParameterizedTest(name = "{0}")
  @ValueSource(strings = {"bcg-log-risk-ratio", "viechtbauer-2005-example-1", "collins-1985-pre-eclampsia"})
  void classic_random_effects_means_agree_with_the_reference(String id) {
    JsonNode given = PoolingReference.byId(id);
    double[] y = PoolingReference.numbers(given.get("y"));
    double[] v = PoolingReference.numbers(given.get("v"));
    for (JsonNode expected : given.get("computed")) {
      if (expected.get("method").asString().equals("REML")) {
        var fit = RandomMean.fit(y, v);
        assertThat(fit.tau2()).isCloseTo(expected.get("tau2").asDouble(), within(1e-6));
        assertThat(fit.intercepts()[0]).isCloseTo(expected.get("estimate").asDouble(), within(1e-6));
        assertThat(Math.sqrt(1 / fit.interceptWeights()[0])).isCloseTo(expected.get("se").asDouble(), within(1e-6));
      }
      /* The other estimators' τ² is put in: mean and error at a given τ² must agree whatever it is. */
      Summary at = RandomMean.at(y, v, expected.get("tau2").asDouble());
      assertThat(at.mean()).isCloseTo(expected.get("estimate").asDouble(), within(1e-6));
      assertThat(at.standardError()).isCloseTo(expected.get("se").asDouble(), within(1e-6));
    }
  }

  /** Viechtbauer (2005), J. Educ. Behav. Stat. 30, p. 271: REML 0.2232; BCG data of Colditz and others (1994), as printed: 0.3132. */
  @Test
  void published_between_study_variances() {
    JsonNode viechtbauer = PoolingReference.byId("viechtbauer-2005-example-1");
    JsonNode bcg = PoolingReference.byId("bcg-log-risk-ratio");
    assertThat(RandomMean.fit(PoolingReference.numbers(viechtbauer.get("y")), PoolingReference.numbers(viechtbauer.get("v"))).tau2())
        .isCloseTo(0.2232, within(5e-5));
    assertThat(RandomMean.fit(PoolingReference.numbers(bcg.get("y")), PoolingReference.numbers(bcg.get("v"))).tau2()).isCloseTo(0.3132, within(5e-5));
  }

  @Test
  void independent_summaries_join_by_inverse_variance() {
    for (JsonNode row : PoolingReference.byId("normal-join").get("rows")) {
      Summary first = new Summary(row.get("mean1").asDouble(), row.get("sd1").asDouble());
      Summary second = new Summary(row.get("mean2").asDouble(), row.get("sd2").asDouble());
      assertThat(first.join(second).mean()).isCloseTo(row.get("mean").asDouble(), within(1e-9));
      assertThat(first.join(second).standardError()).isCloseTo(row.get("sd").asDouble(), within(1e-9));
      assertThat(first.conflict(second)).isCloseTo(row.get("z_conflict").asDouble(), within(1e-9));
    }
  }
}
