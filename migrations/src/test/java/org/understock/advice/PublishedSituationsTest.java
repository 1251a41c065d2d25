package org.understock.advice;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.understock.plant.Crop;
import org.understock.site.Goal;
import org.understock.site.Site;
import org.understock.site.Soil;
import org.understock.site.Word;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Situations for which a published source advises stocks (or advises against them):
 * published-situations.json names source, place and gist of each. One of the advised stocks must be
 * among the first places, none of those advised against among the first five.
 *
 * <p>A situation marked {@code differs} is one in which the service still answers otherwise; the
 * file says why. Such a one must go on differing, so that the mark goes away when the answer has
 * come right.
 */
class PublishedSituationsTest {
  private static final List<String> LINES = new ArrayList<>();

  private static JsonNode read() {
    try (InputStream in =
        PublishedSituationsTest.class.getResourceAsStream("/advice/published-situations.json")) {
      return JsonMapper.shared().readTree(in).get("situations");
    } catch (java.io.IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  @TestFactory
  List<DynamicTest> situations() {
    List<DynamicTest> tests = new ArrayList<>();
    for (JsonNode one : read())
      tests.add(DynamicTest.dynamicTest(one.get("id").asString(), () -> check(one)));
    assertThat(tests).hasSizeGreaterThanOrEqualTo(20);
    return tests;
  }

  @AfterAll
  static void print() {
    LINES.sort(null);
    LINES.forEach(System.out::println);
    System.out.println(
        "published situations: "
            + LINES.stream().filter(line -> line.startsWith("agrees")).count()
            + " of "
            + LINES.size()
            + " agree");
  }

  private static void check(JsonNode one) {
    List<String> order =
        ask(one.get("request")).pairings().stream().map(p -> p.stock().id()).toList();
    List<String> advised = words(one, "firstPlacesAmong");
    List<String> against = words(one, "against");
    boolean first = order.stream().limit(one.get("places").asInt()).anyMatch(advised::contains);
    List<String> wrong =
        order.stream().limit(one.get("againstWithin").asInt()).filter(against::contains).toList();
    boolean agrees = first && wrong.isEmpty();
    LINES.add(
        (agrees ? "agrees   " : "differs  ")
            + one.get("id").asString()
            + ": "
            + String.join(", ", order.stream().limit(5).toList()));
    assertThat(agrees)
        .as(
            "%s: advised %s, against %s, answered %s",
            one.get("gist").asString(), advised, against, order)
        .isEqualTo(!one.has("differs"));
  }

  private static Advice ask(JsonNode request) {
    JsonNode site = request.get("site");
    JsonNode soil = site == null ? null : site.get("soil");
    JsonNode goal = request.get("goal");
    JsonNode candidates = request.get("candidates");
    Soil ground =
        new Soil(
            word(Soil.Texture.class, soil, "texture"),
            word(Soil.Drainage.class, soil, "drainage"),
            number(soil, "depthCm"),
            number(soil, "ph"),
            number(soil, "salinityDsPerM"),
            word(Soil.Fertility.class, soil, "fertility"),
            soil != null && soil.has("replant") ? soil.get("replant").asBoolean() : null);
    Site place =
        new Site(
            number(site, "latitude"),
            number(site, "coldestNightC"),
            number(site, "chillHours"),
            number(site, "chillPortions"),
            number(site, "frostFreeDays"),
            ground,
            word(Site.Irrigation.class, site, "irrigation"),
            word(Site.Wind.class, site, "wind"),
            words(site, "pressures"));
    Goal wish =
        new Goal(
            word(Goal.Purpose.class, goal, "purpose"),
            number(goal, "maxHeightM"),
            null,
            null,
            number(goal, "firstCropWithinYears"),
            number(goal, "keepForYears"),
            word(Goal.Care.class, goal, "care"),
            word(Goal.Support.class, goal, "support"),
            Map.of());
    Candidates named =
        new Candidates(words(candidates, "stocks"), words(candidates, "varieties"), List.of());
    return Starter.ADVISER.advise(
        new Question(
            Crop.of(request.get("crop").asString()),
            place,
            wish,
            named,
            12,
            Question.BestPer.STOCK,
            Units.METRIC));
  }

  private static @Nullable Double number(@Nullable JsonNode node, String field) {
    return node == null || !node.has(field) ? null : node.get(field).asDouble();
  }

  private static <W extends Enum<W> & Word> @Nullable W word(
      Class<W> vocabulary, @Nullable JsonNode node, String field) {
    return node == null || !node.has(field)
        ? null
        : Word.of(vocabulary, field, node.get(field).asString());
  }

  private static List<String> words(@Nullable JsonNode node, String field) {
    List<String> words = new ArrayList<>();
    if (node != null && node.has(field))
      for (JsonNode word : node.get(field)) words.add(word.asString());
    return words;
  }
}
