package org.understock.growth;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.understock.site.Site;
import org.understock.site.Site.Irrigation;
import org.understock.site.Soil;

class SiteGrowthTest {
  @Test
  void unknown_site_leaves_the_middle_and_widens() {
    SiteGrowth unknown = SiteGrowth.of(Site.UNKNOWN);
    SiteGrowth known =
        SiteGrowth.of(
            site(
                90.0,
                Soil.Fertility.MODERATE,
                Soil.Texture.LOAM,
                Irrigation.OCCASIONAL,
                170.0,
                false));
    assertThat(unknown.lengthFactor().median()).isEqualTo(1);
    assertThat(unknown.unknown()).hasSize(6);
    assertThat(known.unknown()).isEmpty();
    assertThat(known.lengthFactor().sigma()).isLessThan(unknown.lengthFactor().sigma());
  }

  /** Rich soil makes every stock bigger than its table value (vt-hunnings-1993). */
  @Test
  void rich_soil_makes_bigger_trees() {
    assertThat(length(site(null, Soil.Fertility.HIGH, null, null, null, null))).isGreaterThan(1);
    assertThat(length(site(null, Soil.Fertility.LOW, null, null, null, null))).isLessThan(1);
  }

  /**
   * Full crop on M.9: up to 5 years in deep soil and a cool climate, 7 or more in shallow soil and
   * a hot one: 1.4 times (gfg-m9-shortcomings).
   */
  @Test
  void shallow_soil_keeps_trees_smaller_and_delays_the_crop() {
    SiteGrowth shallow = SiteGrowth.of(site(40.0, null, null, null, null, null));
    SiteGrowth deep = SiteGrowth.of(site(120.0, null, null, null, null, null));
    assertThat(shallow.lengthFactor().median()).isLessThan(deep.lengthFactor().median());
    double ratio = shallow.delayFactor().median() / deep.delayFactor().median();
    assertThat(ratio).as("the hot climate has its part in the published 1.4").isBetween(1.15, 1.4);
  }

  /** What is said of the soil goes with what it does to the trees. */
  @Test
  void soil_is_called_shallow_where_it_makes_trees_smaller() {
    for (double cm = 30; cm <= 150; cm += 5) {
      SiteGrowth site = SiteGrowth.of(site(cm, null, null, null, null, null));
      for (SiteGrowth.Effect effect : site.effects())
        assertThat(effect.text())
            .as("at %s cm", cm)
            .startsWith(site.lengthFactor().median() < 1 ? "Shallow soil" : "Deep soil");
    }
  }

  /**
   * Lighter soil takes a stronger stock for the same tree (ext-apples-qa); without water sand is
   * worst (common practice, no source).
   */
  @Test
  void sand_and_drought_keep_trees_smaller() {
    assertThat(length(site(null, null, Soil.Texture.SAND, null, null, null)))
        .isLessThan(length(site(null, null, Soil.Texture.LOAM, null, null, null)));
    double sandDry = length(site(null, null, Soil.Texture.SAND, Irrigation.NONE, null, null));
    double sandWatered =
        length(site(null, null, Soil.Texture.SAND, Irrigation.RELIABLE, null, null));
    double loamDry = length(site(null, null, Soil.Texture.LOAM, Irrigation.NONE, null, null));
    double loamWatered =
        length(site(null, null, Soil.Texture.LOAM, Irrigation.RELIABLE, null, null));
    assertThat(sandDry / sandWatered).isLessThan(loamDry / loamWatered);
  }

  /** Wider spacing where the season is long (umaine-spacing). */
  @Test
  void long_seasons_make_bigger_trees() {
    assertThat(length(site(null, null, null, null, 210.0, null)))
        .isGreaterThan(length(site(null, null, null, null, 110.0, null)));
  }

  @Test
  void every_effect_says_what_and_from_where() {
    SiteGrowth site =
        SiteGrowth.of(
            site(40.0, Soil.Fertility.LOW, Soil.Texture.SAND, Irrigation.NONE, 110.0, true));
    assertThat(site.effects()).hasSize(6).allSatisfy(e -> assertThat(e.text()).isNotBlank());
    assertThat(site.effects())
        .filteredOn(e -> e.source() == null)
        .extracting(SiteGrowth.Effect::field)
        .as("common practice, no source")
        .containsExactly("site.irrigation", "site.soil.replant");
    assertThat(site.lengthFactor().median())
        .as("all together stay within what one stock class makes")
        .isBetween(0.5, 0.75);
  }

  private static double length(Site site) {
    return SiteGrowth.of(site).lengthFactor().median();
  }

  private static Site site(
      Double depthCm,
      Soil.Fertility fertility,
      Soil.Texture texture,
      Irrigation irrigation,
      Double frostFreeDays,
      Boolean replant) {
    return new Site(
        null,
        null,
        null,
        null,
        frostFreeDays,
        new Soil(texture, null, depthCm, null, null, fertility, replant),
        irrigation,
        null,
        List.of());
  }
}
