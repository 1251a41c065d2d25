package org.understock.advice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.understock.plant.Crop;
import org.understock.site.Goal;
import org.understock.site.Site;
import org.understock.site.Soil;
import org.understock.trait.Refusal;
import org.understock.wording.Words;

/** What must hold of every answer, whatever the evidence says. */
class AdviceLawsTest {
  private static final Candidates FUJI = new Candidates(List.of(), List.of("fuji"), List.of());

  @ParameterizedTest
  @EnumSource(Crop.class)
  void every_crop_answers_and_effects_add_up_to_the_score(Crop crop) {
    Advice advice = Starter.ask(crop, Site.UNKNOWN, Goal.UNKNOWN, Candidates.ALL, 10);
    assertThat(advice.pairings()).isNotEmpty();
    for (Advice.Advised pairing : advice.pairings()) {
      double sum = pairing.reasons().stream().mapToDouble(Advice.Reason::effect).sum();
      assertThat(advice.meanScore() + sum)
          .as(pairing.stock().id() + "/" + pairing.variety().id())
          .isCloseTo(pairing.score(), within(0.051));
      assertThat(pairing.low()).isLessThanOrEqualTo(pairing.score());
      assertThat(pairing.high()).isGreaterThanOrEqualTo(pairing.score());
      assertThat(pairing.score()).isBetween(0.0, 100.0);
    }
  }

  @Test
  void effects_add_up_where_every_kind_of_criterion_takes_part() {
    Advice advice = everyStock();
    for (Advice.Advised pairing : advice.pairings()) {
      double sum = pairing.reasons().stream().mapToDouble(Advice.Reason::effect).sum();
      assertThat(advice.meanScore() + sum).isCloseTo(pairing.score(), within(0.051));
    }
    double mean =
        advice.pairings().stream().mapToDouble(Advice.Advised::score).average().orElseThrow();
    assertThat(advice.meanScore()).isCloseTo(mean, within(0.06));
  }

  @Test
  void the_same_question_has_the_same_answer_and_the_order_of_candidates_does_not_matter() {
    Candidates one =
        new Candidates(List.of("m-9", "m-7", "g-41"), List.of("fuji", "gala"), List.of());
    Candidates other =
        new Candidates(List.of("g-41", "m-9", "m-7"), List.of("gala", "fuji"), List.of());
    Advice first = Starter.ask(Crop.APPLE, Starter.HARD_SITE, Starter.SMALL_GARDEN, one, 10);
    assertThat(Starter.ask(Crop.APPLE, Starter.HARD_SITE, Starter.SMALL_GARDEN, one, 10))
        .isEqualTo(first);
    Advice second = Starter.ask(Crop.APPLE, Starter.HARD_SITE, Starter.SMALL_GARDEN, other, 10);
    assertThat(
            second.pairings().stream()
                .map(p -> p.stock().id() + p.variety().id() + p.score())
                .toList())
        .isEqualTo(
            first.pairings().stream()
                .map(p -> p.stock().id() + p.variety().id() + p.score())
                .toList());
  }

  /** One variety on each of its stocks, clones in places of their own. */
  private static Advice everyStock() {
    return Starter.ADVISER.advise(
        new Question(
            Crop.APPLE,
            Starter.HARD_SITE,
            Starter.SMALL_GARDEN,
            FUJI,
            100,
            Question.BestPer.STOCK,
            Units.METRIC));
  }

  @Test
  void chances_of_being_best_add_up_to_one() {
    Advice advice = everyStock();
    assertThat(advice.pairings().stream().mapToDouble(Advice.Advised::chanceBest).sum())
        .isCloseTo(1, within(0.03));
  }

  @Test
  void a_priority_given_more_weight_counts_more() {
    Candidates pair =
        new Candidates(List.of("m-27", "mm-111"), List.of("golden-delicious"), List.of());
    double before = lead(pair, Map.of("early-cropping", 1.0, "long-life", 5.0));
    double after = lead(pair, Map.of("early-cropping", 5.0, "long-life", 1.0));
    assertThat(after).as("the dwarf's lead over the vigorous stock").isGreaterThan(before);
  }

  private static double lead(Candidates pair, Map<String, Double> priorities) {
    Goal goal = new Goal(null, null, null, null, null, null, null, null, priorities);
    Map<String, Double> scores =
        Starter.ask(Crop.APPLE, Site.UNKNOWN, goal, pair, 2).pairings().stream()
            .collect(Collectors.toMap(p -> p.stock().id(), Advice.Advised::score));
    return scores.get("m-27") - scores.get("mm-111");
  }

  @Test
  void a_stock_without_evidence_is_uncertain_not_average() {
    Site wet =
        new Site(
            null,
            null,
            null,
            null,
            null,
            new Soil(null, Soil.Drainage.VERY_POORLY_DRAINED, null, null, null, null, null),
            null,
            null,
            List.of());
    CropTables apple =
        new CropTables(
            Starter.BOOK, Crop.APPLE, org.understock.growth.Growth.of(Starter.BOOK, Crop.APPLE));
    LevelDraws unknown =
        apple.stocks.stream()
            .map(s -> s.levels().get("wet-soil"))
            .filter(l -> !l.known())
            .findFirst()
            .orElseThrow();
    Set<Byte> levels = new java.util.HashSet<>();
    for (byte level : unknown.draws()) levels.add(level);
    assertThat(levels).hasSize(unknown.trait().levels().size());
    Advice advice = Starter.ask(Crop.APPLE, wet, Goal.UNKNOWN, FUJI, 40);
    for (Advice.Advised pairing : advice.pairings()) {
      StockRow row = apple.stocks.get(apple.stock(pairing.stock().id()).orElseThrow());
      if (!row.levels().get("wet-soil").known())
        assertThat(pairing.thinEvidence()).anyMatch(thin -> thin.trait().equals("wet-soil"));
    }
  }

  @Test
  void an_incompatible_pairing_is_ruled_out_with_its_records() {
    Candidates candidates =
        new Candidates(
            List.of("marianna-2624"),
            List.of("bulida"),
            List.of()); // vascular and wood discontinuities, source aula-dei-apricot-compat
    Advice advice = Starter.ask(Crop.APRICOT, Site.UNKNOWN, Goal.UNKNOWN, candidates, 10);
    assertThat(advice.pairings()).isEmpty();
    assertThat(advice.ruledOutCount()).isEqualTo(1);
    assertThat(advice.ruledOut().get(0).limits())
        .singleElement()
        .satisfies(
            limit -> {
              assertThat(limit.criterion()).isEqualTo("compatibility");
              assertThat(limit.records()).isNotEmpty();
            });
  }

  @Test
  void too_little_chill_rules_a_variety_out_and_enough_does_not() {
    Candidates elberta = new Candidates(List.of("lovell"), List.of("elberta"), List.of());
    Site warm = new Site(null, null, 250.0, null, null, Soil.UNKNOWN, null, null, List.of());
    Site cold = new Site(null, null, 1200.0, null, null, Soil.UNKNOWN, null, null, List.of());
    assertThat(Starter.ask(Crop.PEACH, warm, Goal.UNKNOWN, elberta, 1).ruledOut()).hasSize(1);
    assertThat(Starter.ask(Crop.PEACH, cold, Goal.UNKNOWN, elberta, 1).pairings()).hasSize(1);
  }

  @Test
  void what_is_missing_is_named_and_what_is_given_is_not() {
    Advice unknown = Starter.ask(Crop.APPLE, Site.UNKNOWN, Goal.UNKNOWN, FUJI, 1);
    assertThat(unknown.assumptions())
        .extracting(Advice.Assumption::field)
        .contains(
            "site.soil.drainage",
            "site.coldestNightC",
            "site.chillHours",
            "site.wind",
            "site.irrigation",
            "goal.maxHeightM",
            "goal.care");
    Advice known = Starter.ask(Crop.APPLE, Starter.HARD_SITE, Starter.SMALL_GARDEN, FUJI, 1);
    assertThat(known.assumptions())
        .extracting(Advice.Assumption::field)
        .doesNotContain("site.soil.drainage", "site.coldestNightC", "goal.maxHeightM");
  }

  @Test
  void unknown_words_are_refused_with_the_nearest_known_ones() {
    Goal goal =
        new Goal(null, null, null, null, null, null, null, null, Map.of("early-croping", 4.0));
    assertThatThrownBy(() -> Starter.ask(Crop.APPLE, Site.UNKNOWN, goal, FUJI, 1))
        .isInstanceOfSatisfying(
            Refusal.Unknown.class,
            refusal -> assertThat(refusal.nearest()).contains("early-cropping"));
    assertThatThrownBy(
            () ->
                Starter.ask(
                    Crop.APPLE,
                    Site.UNKNOWN,
                    Goal.UNKNOWN,
                    new Candidates(List.of("m-77"), List.of(), List.of()),
                    1))
        .isInstanceOfSatisfying(
            Refusal.Unknown.class,
            refusal -> assertThat(refusal.field()).isEqualTo("candidates.stocks[0]"));
  }

  @Test
  void a_stock_keeping_unit_is_handed_back() {
    Candidates offered =
        new Candidates(
            List.of(),
            List.of(),
            List.of(
                new Candidates.Named("g-969", "fuji", "A-117"),
                new Candidates.Named("m-7", "fuji", null)));
    Advice advice = Starter.ask(Crop.APPLE, Site.UNKNOWN, Goal.UNKNOWN, offered, 5);
    assertThat(advice.pairings())
        .filteredOn(p -> p.stock().id().equals("g-969"))
        .singleElement()
        .satisfies(p -> assertThat(p.sku()).isEqualTo("A-117"));
    assertThat(advice.weights()).extracting(Advice.Weighted::criterion).contains("availability");
  }

  @Test
  void every_record_cited_exists_and_its_source_is_listed() {
    Advice advice =
        Starter.ask(Crop.APPLE, Starter.HARD_SITE, Starter.SMALL_GARDEN, Candidates.ALL, 10);
    Set<String> sources =
        advice.sources().stream().map(s -> s.source().id()).collect(Collectors.toSet());
    for (Advice.Advised pairing : advice.pairings()) {
      for (Advice.Reason reason : pairing.reasons()) {
        for (String id : reason.records())
          assertThat(sources).contains(Starter.BOOK.record(id).orElseThrow().source());
      }
    }
  }

  @Test
  void every_criterion_has_a_bearing_and_words_of_its_own() {
    for (Criterion criterion : Criteria.all()) {
      // on offer and frost depend on more than site and goal, and are brought up by the adviser
      if (criterion.preference()
          && criterion != Criteria.AVAILABILITY
          && criterion != Criteria.FROST)
        assertThat(ComputedBearings.covers(criterion)).as(criterion.id()).isTrue();
      assertThat(criterion.definition(Words.ENGLISH)).isNotBlank();
    }
  }
}
