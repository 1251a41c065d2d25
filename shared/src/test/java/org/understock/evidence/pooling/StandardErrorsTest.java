package org.understock.evidence.pooling;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

class StandardErrorsTest {
  /** Quantiles from R's qtukey and qt, in the case "spread-to-se" of the reference file. */
  @Test
  void quantiles_agree_with_the_reference() {
    JsonNode reference = PoolingReference.byId("spread-to-se");
    for (JsonNode row : reference.get("q95")) {
      double df = row.get("infinite_df").asBoolean() ? Double.POSITIVE_INFINITY : row.get("df").asDouble();
      assertThat(StudentizedRange.quantile(0.95, row.get("k").asInt(), df)).as(row.toString()).isCloseTo(row.get("q").asDouble(), within(1e-6));
    }
    for (JsonNode row : reference.get("t975")) {
      assertThat(StandardErrors.studentT(0.975, row.get("df").asDouble())).isCloseTo(row.get("t").asDouble(), within(1e-7));
    }
    assertThat(StandardErrors.studentT(0.975, Double.POSITIVE_INFINITY)).isCloseTo(reference.get("z975").asDouble(), within(1e-8));
  }

  /** Printed table of the studentized range: q(0.95; 3, 10) = 3.88 (from memory: Harter's table as reprinted in textbooks). */
  @Test
  void quantile_agrees_with_the_printed_table() {
    assertThat(StudentizedRange.quantile(0.95, 3, 10)).isCloseTo(3.88, within(0.005));
  }

  /** For two means q = t √2: exact, at any degrees of freedom. */
  @Test
  void two_means_are_students_t() {
    for (double df : new double[] {1, 2, 3, 5, 8, 15, 60, 1000}) {
      assertThat(StudentizedRange.quantile(0.95, 2, df)).isCloseTo(StandardErrors.studentT(0.975, df) * Math.sqrt(2), within(2e-6));
    }
  }

  /** SE behind the average HSD of trunk areas, 2010 'Aztec Fuji' trial, J. Amer. Pomol. Soc. 71 (2017), table 7. */
  @Test
  void standard_errors_of_the_fuji_table() {
    for (JsonNode row : PoolingReference.byId("fuji-2010-hsd-variances").get("variance_rule")) {
      assertThat(StandardErrors.ofHsd(row.get("average_hsd").asDouble(), row.get("stocks").asInt(), Double.POSITIVE_INFINITY))
          .isCloseTo(row.get("se_of_a_mean").asDouble(), within(1e-6));
    }
  }
}
