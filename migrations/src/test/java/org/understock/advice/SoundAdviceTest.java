package org.understock.advice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.understock.evidence.Estimate;
import org.understock.evidence.Intervals;
import org.understock.evidence.Subject;
import org.understock.growth.Growth;
import org.understock.plant.Crop;
import org.understock.plant.Stock;
import org.understock.site.Goal;
import org.understock.site.Site;
import org.understock.site.Soil;

/** What an orchardist who is read an answer would object to, if it were otherwise. */
class SoundAdviceTest {
  private static final Goal TINY =
      new Goal(
          Goal.Purpose.HOME_GARDEN, 2.2, 3.0, 4.0, null, null, null, Goal.Support.STAKE, Map.of());
  private static final CropTables APPLE =
      new CropTables(Starter.BOOK, Crop.APPLE, Growth.of(Starter.BOOK, Crop.APPLE));

  /**
   * Of 'Megumi' two sources tell bloom and self-compatibility, nothing else: that is no reason to
   * put it before varieties that are known.
   */
  @Test
  void
      a_little_known_variety_with_one_good_trait_does_not_lead_an_answer_in_which_nothing_was_asked_of_the_variety() {
    Advice advice = Starter.ask(Crop.APPLE, Site.UNKNOWN, TINY, Candidates.ALL, 10);
    assertThat(advice.pairings())
        .extracting(p -> p.variety().id())
        .doesNotContain("megumi")
        .startsWith("liberty");
    for (Advice.Advised pairing : advice.pairings()) {
      VarietyRow variety = APPLE.varieties.get(APPLE.variety(pairing.variety().id()).orElseThrow());
      assertThat(variety.track().voices()).as(pairing.variety().id()).isGreaterThan(2);
    }
  }

  @Test
  void what_is_not_on_record_is_worth_what_the_rated_stocks_are_worth() {
    for (Rated rated : RatedCriteria.ALL) {
      for (Rated.Part part : rated.parts()) {
        List<LevelDraws> all =
            APPLE.stocks.stream()
                .map(s -> s.levels().get(part.trait()))
                .filter(java.util.Objects::nonNull)
                .toList();
        double known =
            all.stream()
                .filter(
                    d ->
                        d.known() && d.estimate().orElseThrow().support().inheritedFrom().isEmpty())
                .mapToDouble(d -> Cautions.mean(d, rated.scale()))
                .average()
                .orElse(Double.NaN);
        double unknown =
            all.stream()
                .filter(d -> !d.known())
                .mapToDouble(d -> Cautions.mean(d, rated.scale()))
                .average()
                .orElse(Double.NaN);
        long voices = all.stream().filter(LevelDraws::known).count();
        if (voices >= 10) assertThat(unknown).as(part.trait()).isCloseTo(known, within(0.08));
      }
    }
  }

  @Test
  void clones_that_cannot_be_told_apart_take_one_place_and_named_ones_their_own() {
    Candidates gala = new Candidates(List.of(), List.of("gala"), List.of());
    List<Advice.Advised> open = Starter.ask(Crop.APPLE, Site.UNKNOWN, TINY, gala, 100).pairings();
    Advice.Advised head =
        open.stream().filter(p -> "m-9".equals(root(p.stock()))).findFirst().orElseThrow();
    assertThat(head.alsoClones())
        .isNotEmpty()
        .allSatisfy(clone -> assertThat(root(clone)).isEqualTo("m-9"));
    Set<String> listed = open.stream().map(p -> p.stock().id()).collect(Collectors.toSet());
    assertThat(head.alsoClones()).extracting(Stock::id).doesNotContainAnyElementsOf(listed);
    Set<String> both = new java.util.HashSet<>(listed);
    open.forEach(p -> p.alsoClones().forEach(clone -> both.add(clone.id())));
    Advice all =
        Starter.ADVISER.advise(
            new Question(
                Crop.APPLE, Site.UNKNOWN, TINY, gala, 100, Question.BestPer.STOCK, Units.METRIC));
    assertThat(both)
        .as("no stock is lost")
        .containsExactlyInAnyOrderElementsOf(
            all.pairings().stream().map(p -> p.stock().id()).toList());

    Candidates named =
        new Candidates(List.of("m-9", "m-9-t337", "m-9-pajam-2"), List.of("gala"), List.of());
    assertThat(Starter.ask(Crop.APPLE, Site.UNKNOWN, TINY, named, 10).pairings())
        .hasSize(3)
        .allSatisfy(p -> assertThat(p.alsoClones()).isEmpty());
  }

  private static String root(Stock stock) {
    return stock.cloneOf() == null ? stock.id() : stock.cloneOf();
  }

  @Test
  void a_hard_site_says_what_the_best_comes_to_and_why() {
    Advice hard =
        Starter.ask(Crop.APPLE, Starter.HARD_SITE, Starter.SMALL_GARDEN, Candidates.ALL, 10);
    assertThat(hard.reach().bestScore()).isEqualTo(hard.pairings().get(0).score()).isLessThan(50);
    assertThat(hard.reach().text()).contains("wet soil").contains("share of it");
    assertThat(hard.pairings().get(0).percentOfBest()).isEqualTo(100);
    for (Advice.Advised p : hard.pairings()) {
      assertThat((double) p.percentOfBest())
          .isCloseTo(100 * p.score() / hard.reach().bestScore(), within(0.7));
    }
    Advice easy = Starter.ask(Crop.APPLE, Site.UNKNOWN, Goal.UNKNOWN, Candidates.ALL, 10);
    assertThat(easy.reach().bestScore()).isGreaterThan(hard.reach().bestScore());
    assertThat(easy.reach().text()).doesNotContain("share of it");
  }

  /**
   * In Maine, about 149 frost-free days, Granny Smith does not ripen (University of Maine, Growing
   * fruit trees in Maine: selecting varieties).
   */
  @Test
  void a_variety_too_late_for_the_season_falls_behind_and_is_cautioned() {
    Candidates two =
        new Candidates(List.of("m-26"), List.of("granny-smith", "mcintosh"), List.of());
    List<Advice.Advised> maine =
        Starter.ask(Crop.APPLE, frostFree(149), Goal.UNKNOWN, two, 2).pairings();
    assertThat(maine).extracting(p -> p.variety().id()).containsExactly("mcintosh", "granny-smith");
    assertThat(maine.get(1).cautions()).extracting(Advice.Caution::code).contains("short-season");
    assertThat(maine.get(0).cautions())
        .extracting(Advice.Caution::code)
        .doesNotContain("short-season");
    assertThat(maine.get(1).reasons())
        .anySatisfy(
            reason -> {
              assertThat(reason.criterion()).isEqualTo("season");
              assertThat(reason.effect()).isNegative();
              assertThat(reason.text()).contains("149 frost-free days");
              assertThat(reason.records()).isNotEmpty();
            });
    double lead = maine.get(0).score() - maine.get(1).score();
    Map<String, Double> long200 =
        Starter.ask(Crop.APPLE, frostFree(220), Goal.UNKNOWN, two, 2).pairings().stream()
            .collect(Collectors.toMap(p -> p.variety().id(), Advice.Advised::score));
    assertThat(long200.get("mcintosh") - long200.get("granny-smith")).isLessThan(lead - 20);
  }

  @Test
  void a_season_that_was_not_told_is_named_where_it_could_have_counted() {
    assertThat(assumed(Crop.APPLE, Site.UNKNOWN)).contains("site.frostFreeDays");
    assertThat(assumed(Crop.APPLE, frostFree(150)))
        .doesNotContain("site.frostFreeDays", "evidence.season");
    assertThat(assumed(Crop.QUINCE, Site.UNKNOWN))
        .doesNotContain("site.frostFreeDays", "evidence.season");
    assertThat(assumed(Crop.QUINCE, frostFree(150)))
        .as("told, but of no use")
        .contains("evidence.season");
  }

  private static List<String> assumed(Crop crop, Site site) {
    return Starter.ask(crop, site, Goal.UNKNOWN, Candidates.ALL, 1).assumptions().stream()
        .map(Advice.Assumption::field)
        .toList();
  }

  private static Site frostFree(double days) {
    return new Site(null, null, null, null, days, Soil.UNKNOWN, null, null, List.of());
  }

  /**
   * Released for winters of 100 to 200 chill units: UFSun (United States Plant Patent 14,764),
   * UFOne (application 2010/0058501) and others.
   */
  @Test
  void a_mild_winter_has_peaches_made_for_it() {
    Site mild =
        new Site(
            null, null, 200.0, null, null, Soil.UNKNOWN, null, null, List.of("root-knot-nematode"));
    Advice advice =
        Starter.ADVISER.advise(
            new Question(
                Crop.PEACH,
                mild,
                Goal.UNKNOWN,
                Candidates.ALL,
                5,
                Question.BestPer.VARIETY,
                Units.METRIC));
    assertThat(advice.pairings())
        .extracting(p -> p.variety().id())
        .isSubsetOf(
            "ufsun", "ufone", "ufruby", "flordaprince", "tropicbeauty", "flordaglo", "ufgold")
        .hasSize(5);
    assertThat(advice.ruledOutCount()).isPositive();
  }

  /** 161 chilling hours were enough for 'Blenheim' (Ledbetter 2017): a need of at most that. */
  @Test
  void an_upper_bound_is_kept_as_one() {
    Estimate.Quantity need =
        (Estimate.Quantity)
            Starter.BOOK
                .estimate(new Subject.OfVariety(Crop.APRICOT, "blenheim"), "chill-hours")
                .orElseThrow();
    assertThat(Intervals.of(need).value()).isLessThan(161);
  }

  @Test
  void a_narrow_bed_along_a_wall_takes_trees_that_are_trained_flat() {
    Goal wall = new Goal(null, 2.2, 1.5, 12.0, 3.0, null, null, Goal.Support.TRELLIS, Map.of());
    Goal stake = new Goal(null, 2.2, 1.5, 12.0, 3.0, null, null, Goal.Support.STAKE, Map.of());
    Candidates gala = new Candidates(List.of("m-9", "m-26"), List.of("gala"), List.of());
    Advice flat = Starter.ask(Crop.APPLE, Site.UNKNOWN, wall, gala, 2);
    assertThat(flat.pairings())
        .hasSize(2)
        .allSatisfy(
            p ->
                assertThat(p.reasons())
                    .anySatisfy(
                        r -> {
                          assertThat(r.criterion()).isEqualTo("size");
                          assertThat(r.text())
                              .contains("trained flat along the wires")
                              .doesNotContain("wider than");
                        }));
    assertThat(Starter.ask(Crop.APPLE, Site.UNKNOWN, stake, gala, 2).meanScore())
        .isLessThan(flat.meanScore());
  }

  @Test
  void the_ruled_out_are_told_by_unlike_stocks_first() {
    Advice advice = Starter.ask(Crop.APPLE, Site.UNKNOWN, TINY, Candidates.ALL, 10);
    List<String> told = advice.ruledOut().stream().map(out -> out.stock().id()).toList();
    List<String> unlike = told.stream().distinct().toList();
    assertThat(told.subList(0, unlike.size()))
        .as("each stock once before any comes again")
        .isEqualTo(unlike)
        .contains("seedling", "mm-111");
  }
}
