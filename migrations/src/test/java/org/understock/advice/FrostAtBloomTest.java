package org.understock.advice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.time.MonthDay;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.understock.climate.BloomOutlook;
import org.understock.climate.DailyExtremes;
import org.understock.climate.NightRule;
import org.understock.climate.Season;
import org.understock.climate.Springs;
import org.understock.climate.TemperatureSeries;
import org.understock.climate.ToldBloom;
import org.understock.climate.Winters;
import org.understock.plant.Crop;
import org.understock.plant.Variety;
import org.understock.site.Goal;
import org.understock.site.Site;
import org.understock.wording.Language;
import org.understock.wording.Words;

/** Laws of frost at bloom, on invented springs in which nights only get warmer. */
class FrostAtBloomTest {
  private static final Variety GALA = variety("gala");

  private static Variety variety(String id) {
    return Starter.BOOK.plants().variety(id).orElseThrow();
  }

  /** Ten springs of which the last frost comes between 10 April and 7 May. */
  private static Winters springs(double frostC) {
    List<DailyExtremes> days = new ArrayList<>();
    for (LocalDate day = LocalDate.of(2001, 1, 1);
        day.isBefore(LocalDate.of(2011, 1, 1));
        day = day.plusDays(1)) {
      LocalDate last = LocalDate.of(day.getYear(), 4, 10).plusDays(3L * (day.getYear() - 2001));
      double night = day.isAfter(last) && day.getMonthValue() < 11 ? 6 : frostC;
      days.add(new DailyExtremes(day, night, night + 10));
    }
    return Winters.of(TemperatureSeries.ofDaily(48, days, NightRule.CONTINUOUS), Season.usual(48));
  }

  private static ToldBloom bloom(Variety variety, int month, int day, double sdDays) {
    return new ToldBloom(variety, MonthDay.of(month, day), sdDays, List.of());
  }

  private static Question question(Springs springs, String... varieties) {
    return new Question(
        Crop.APPLE,
        Site.UNKNOWN,
        Goal.UNKNOWN,
        new Candidates(List.of("m-9-t337"), List.of(varieties), List.of()),
        100,
        Question.BestPer.PAIRING,
        Units.METRIC,
        springs,
        Language.ENGLISH);
  }

  private static Judging judging(Springs springs, String... varieties) {
    return Starter.ADVISER.judging(question(springs, varieties), new ArrayList<>());
  }

  private static BloomFrosts.Risk risk(Springs springs, String variety) {
    Judging judging = judging(springs, variety);
    VarietyRow row = judging.tables.varieties.get(judging.tables.variety(variety).orElseThrow());
    return Objects.requireNonNull(judging.frosts).of(row);
  }

  /**
   * Counted by hand: -6 °C kills nine tenths of apple at every stage from first bloom on (-3.9 °C,
   * the published table), 6 °C none. Bloom on 25 April is lost where a night up to 19 April or
   * later is frosty: its first night that counts is 19 April, six days before.
   */
  @Test
  void the_share_of_springs_lost_is_that_counted_by_hand() {
    Springs told = new Springs(springs(-6), List.of(bloom(GALA, 4, 25, 0)));
    long byHand =
        java.util.stream.IntStream.range(0, 10)
            .filter(
                k ->
                    !LocalDate.of(2001, 4, 10).plusDays(3L * k).isBefore(LocalDate.of(2001, 4, 19)))
            .count();
    BloomFrosts.Risk risk = risk(told, "gala");
    assertThat(risk.count()).isEqualTo(10);
    assertThat(risk.share()).isCloseTo(byHand / 10.0, within(1e-12));
    // one spring more, that nobody measured, counts for half: the mean of Jeffreys' prior
    assertThat(Draws.mean(risk.lost())).isCloseTo((byHand + 0.5) / 11, within(0.02));
  }

  @Test
  void later_bloom_is_never_worse_where_nights_only_get_warmer() {
    double[] before = null;
    for (int day = 1; day <= 31; day += 3) {
      Springs told = new Springs(springs(-6), List.of(bloom(GALA, 5, day, 5)));
      double[] met = risk(told, "gala").satisfaction();
      if (before != null)
        for (int d = 0; d < Draws.COUNT; d++)
          assertThat(met[d]).isGreaterThanOrEqualTo(before[d] - 1e-12);
      before = met;
    }
    assertThat(Draws.mean(Objects.requireNonNull(before))).isGreaterThan(0.85);
  }

  @Test
  void more_frost_never_raises_a_score() {
    double[] before = null;
    for (double frostC : new double[] {3, -1, -2, -3, -4, -6}) {
      Judging judging =
          judging(
              new Springs(springs(frostC), List.of(bloom(GALA, 5, 1, 6))),
              "gala",
              "fuji",
              "golden-delicious");
      // held: what cold of winter does is another criterion, and Site.UNKNOWN leaves it open
      double[] score = judging.field.score.clone();
      if (before != null)
        for (int i = 0; i < score.length; i++)
          assertThat(score[i]).isLessThanOrEqualTo(before[i] + 1e-12);
      before = score;
    }
  }

  /**
   * Of varieties told by one other alone, those that published lists have later lose fewer springs.
   */
  @Test
  void late_bloomers_gain_on_a_frosty_site_by_published_days() {
    Springs told = new Springs(springs(-6), List.of(bloom(GALA, 4, 28, 3)));
    List<Variety> others =
        Starter.BOOK.plants().varieties().stream()
            .filter(v -> v.crop() == Crop.APPLE && !v.equals(GALA))
            .toList();
    Judging judging = judging(told, "gala");
    BloomFrosts frosts = Objects.requireNonNull(judging.frosts);
    List<BloomFrosts.Risk> known =
        others.stream()
            .map(
                v ->
                    frosts.of(
                        judging.tables.varieties.get(judging.tables.variety(v.id()).orElseThrow())))
            .filter(BloomFrosts.Risk::known)
            .toList();
    assertThat(known.size()).isGreaterThan(100);
    assertThat(known).extracting(r -> r.bloom().basis()).contains(BloomOutlook.Basis.BLOOM_GROUP);
    BloomFrosts.Risk early =
        known.stream()
            .min(java.util.Comparator.comparing(r -> r.bloom().fullBloom()))
            .orElseThrow();
    BloomFrosts.Risk late =
        known.stream()
            .max(java.util.Comparator.comparing(r -> r.bloom().fullBloom()))
            .orElseThrow();
    assertThat(late.share()).isLessThan(early.share() - 0.15);
    assertThat(known).allMatch(r -> r.bloom().doubtDays() >= 1);
  }

  @Test
  void what_is_not_known_takes_no_part_and_is_told() {
    Springs bloomAlone = new Springs(null, List.of(bloom(GALA, 4, 28, 3)));
    Springs nightsAlone = new Springs(springs(-6), List.of());
    Map<Springs, String> cases =
        Map.of(
            Springs.UNKNOWN,
            "site.bloom",
            bloomAlone,
            "site.temperatures",
            nightsAlone,
            "site.bloom");
    cases.forEach(
        (springs, field) -> {
          Advice advice = Starter.ADVISER.advise(question(springs, "gala"));
          assertThat(advice.assumptions()).extracting(Advice.Assumption::field).contains(field);
          assertThat(advice.weights())
              .extracting(Advice.Weighted::criterion)
              .doesNotContain("frost-at-bloom");
        });
  }

  @Test
  void the_answer_says_what_frost_does_and_where_the_figures_are_from() {
    Advice advice =
        Starter.ADVISER.advise(
            question(new Springs(springs(-6), List.of(bloom(GALA, 4, 28, 0))), "gala"));
    Advice.Advised first = advice.pairings().get(0);
    assertThat(first.reasons())
        .filteredOn(r -> r.criterion().equals("frost-at-bloom"))
        .extracting(Advice.Reason::text)
        .containsExactly(
            "10 springs were measured: Gala is in full bloom about 28 April, and frost would have taken its crop in about 6 of 10 springs.");
    assertThat(first.cautions())
        .filteredOn(c -> c.code().equals("frost-at-bloom"))
        .extracting(Advice.Caution::text)
        .allSatisfy(
            t ->
                assertThat(t)
                    .startsWith(
                        "Frost would have taken the crop of Gala in about 6 of 10 springs: "))
        .hasSize(1);
    assertThat(advice.notices()).extracting(Advice.Notice::code).contains("frost-figures");
  }

  /** The ways to say how often, in every language; each stands after "in" / "en". */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "0.6   | 10 | about 6 of 10 springs | alrededor de 6 de 10 primaveras",
        "0.1   | 10 | about 1 of 10 springs | alrededor de 1 de 10 primaveras",
        "0.07  | 10 | about 1 of 14 springs | alrededor de 1 de cada 14 primaveras",
        "0.1   |  3 | about 1 of 10 springs | alrededor de 1 de cada 10 primaveras",
        "0.021 | 30 | about 1 of 50 springs | alrededor de 1 de cada 50 primaveras",
        "0.008 | 30 | fewer than 1 of 100 springs | menos de 1 de cada 100 primaveras",
        "0.001 | 30 | none of them | ninguna de ellas",
        "0.4   |  1 | the one measured spring with a chance of 40 in 100 | la única primavera medida con una probabilidad de 40 entre 100"
      })
  void how_often_is_said_in_springs(double share, int count, String english, String spanish) {
    BloomFrosts.Risk any = risk(new Springs(springs(-6), List.of(bloom(GALA, 4, 25, 0))), "gala");
    BloomFrosts.Risk risk = new BloomFrosts.Risk(any.lost(), any.bloom(), true, share, count);
    assertThat(BloomFrosts.often(risk).in(Words.in(Language.ENGLISH))).isEqualTo(english);
    assertThat(BloomFrosts.often(risk).in(Words.in(Language.SPANISH))).isEqualTo(spanish);
  }
}
