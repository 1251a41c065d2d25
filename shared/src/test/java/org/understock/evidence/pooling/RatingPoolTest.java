package org.understock.evidence.pooling;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Pooled ratings against rating-pooling-cases.json (computed in R 4.2.2; the consensus check value
 * 0.7256876 is printed in the documentation of R package agrmt).
 */
class RatingPoolTest {
  private static final JsonNode FILE = read();

  private static JsonNode read() {
    try (InputStream in = RatingPoolTest.class.getResourceAsStream("rating-pooling-cases.json")) {
      return JsonMapper.shared().readTree(in);
    } catch (java.io.IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  @TestFactory
  List<DynamicTest> cases() {
    List<DynamicTest> tests = new ArrayList<>();
    for (JsonNode one : FILE.get("cases"))
      tests.add(DynamicTest.dynamicTest(one.get("id").asString(), () -> check(one)));
    assertThat(tests).hasSizeGreaterThanOrEqualTo(3);
    return tests;
  }

  private static void check(JsonNode one) {
    List<RatingPool.Voice> voices = new ArrayList<>();
    for (JsonNode s : one.get("sources"))
      voices.add(
          new RatingPool.Voice(
              s.get("from").asInt() - 1, s.get("to").asInt() - 1, s.get("weight").asDouble()));
    double[] alpha =
        RatingPool.pool(
            one.get("K").asInt(), one.get("alpha0").asDouble(), one.get("eps").asDouble(), voices);
    JsonNode expected = one.get("expected");
    for (int k = 0; k < alpha.length; k++)
      assertThat(alpha[k]).isCloseTo(expected.get("alpha").get(k).asDouble(), within(1e-9));
    assertThat(RatingPool.meanLevel(alpha))
        .isCloseTo(expected.get("mean_level").asDouble(), within(1e-9));
    assertThat(RatingPool.consensus(alpha))
        .isCloseTo(expected.get("consensus").asDouble(), within(1e-9));
  }

  @Test
  void published_consensus_is_met() {
    JsonNode published = FILE.get("published").get("consensus");
    double[] counts = new double[published.get("counts").size()];
    for (int k = 0; k < counts.length; k++) counts[k] = published.get("counts").get(k).asDouble();
    assertThat(RatingPool.consensus(counts))
        .isCloseTo(published.get("value").asDouble(), within(5e-8));
  }

  @Test
  void agreeing_voices_narrow_and_disagreeing_ones_stay_wide() {
    RatingPool.Voice high = new RatingPool.Voice(3, 3, 0.6);
    double[] one = RatingPool.pool(5, 0.2, 0.1, List.of(high));
    double[] three = RatingPool.pool(5, 0.2, 0.1, List.of(high, high, high));
    double[] split =
        RatingPool.pool(5, 0.2, 0.1, List.of(high, high, new RatingPool.Voice(0, 0, 0.6)));
    assertThat(RatingPool.consensus(three)).isGreaterThan(RatingPool.consensus(one));
    assertThat(RatingPool.consensus(split)).isLessThan(RatingPool.consensus(three));
  }
}
