package org.understock.advice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.understock.site.MeasuredWinters;
import org.understock.site.Site;
import org.understock.site.Soil;
import org.understock.trait.Refusal;
import org.understock.wording.Words;

class WinterDrawsTest {
  private static final MeasuredWinters FOUR =
      new MeasuredWinters(
          List.of(900.0, 1100.0, 700.0, 1000.0),
          List.of(60.0, 70.0, 40.0, 65.0),
          List.of(-12.0, -18.0, -5.0, -14.0));

  private static Site site(Double night, Double hours, MeasuredWinters winters) {
    return new Site(45.0, night, hours, null, null, Soil.UNKNOWN, null, null, List.of(), winters);
  }

  @Test
  void every_measured_winter_is_in_as_many_draws_as_any_other() {
    double[] nights = new WinterDraws(site(null, null, FOUR)).nightsC();
    for (double night : FOUR.coldestNightsC())
      assertThat(IntStream.range(0, Draws.COUNT).filter(d -> nights[d] == night).count())
          .isEqualTo(Draws.COUNT / 4);
  }

  @Test
  void chill_and_cold_of_a_draw_are_of_the_same_winter() {
    WinterDraws winters = new WinterDraws(site(null, null, FOUR));
    double[] nights = winters.nightsC();
    VarietyRow inPortions = row(false, false);
    double[] log = winters.logChill(inPortions);
    for (int d = 0; d < Draws.COUNT; d++) {
      int winter = FOUR.coldestNightsC().indexOf(nights[d]);
      assertThat(log[d]).isEqualTo(Math.log(FOUR.chillPortions().get(winter)));
    }
  }

  @Test
  void a_variety_known_in_hours_alone_is_held_against_hours() {
    WinterDraws winters = new WinterDraws(site(null, null, FOUR));
    assertThat(winters.inHours(row(true, false))).isTrue();
    assertThat(winters.inHours(row(true, true))).isFalse();
    assertThat(winters.inHours(row(false, true))).isFalse();
    assertThat(winters.inHours(row(false, false))).isFalse();
    assertThat(winters.because(true).in(Words.ENGLISH))
        .isEqualTo("4 measured winters brought 700 to 1100 chilling hours");
    assertThat(winters.because(false).in(Words.ENGLISH))
        .isEqualTo("4 measured winters brought 40 to 70 chill portions");
  }

  @Test
  void a_told_figure_goes_before_what_was_measured() {
    WinterDraws told = new WinterDraws(site(-20.0, 800.0, FOUR));
    assertThat(told.nightsC()).containsOnly(-20.0);
    assertThat(told.inHours(row(false, true))).isTrue();
    assertThat(told.logChill(row(false, true))).containsOnly(Math.log(800));
    WinterDraws unknown = new WinterDraws(Site.UNKNOWN);
    assertThat(unknown.nightsC()).isNull();
    assertThat(unknown.chillKnown()).isFalse();
    assertThat(unknown.usualNightC()).isNull();
  }

  @Test
  void the_lists_are_of_the_same_winters() {
    assertThatThrownBy(() -> new MeasuredWinters(List.of(), List.of(), List.of()))
        .isInstanceOf(Refusal.OutOfRange.class);
    assertThatThrownBy(() -> new MeasuredWinters(List.of(1.0), List.of(1.0, 2.0), List.of(1.0)))
        .isInstanceOf(Refusal.Conflict.class);
  }

  @SuppressWarnings("NullAway") // only the needs are looked at
  private static VarietyRow row(boolean hoursKnown, boolean portionsKnown) {
    return new VarietyRow(
        null, null, true, null, null, need(hoursKnown), need(portionsKnown), 0, null, null, null);
  }

  private static Chilling need(boolean known) {
    return new Chilling(new double[Draws.COUNT], known, List.of());
  }
}
