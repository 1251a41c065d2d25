package org.understock.site;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.understock.site.Soil.Texture;
import org.understock.trait.Refusal;

class TextureTriangleTest {

  @ParameterizedTest(name = "{1} sand, {2} silt, {3} clay is {0}")
  @CsvFileSource(
      resources = "soil-texture-points.csv",
      numLinesToSkip = 1) // its comment lines name the sources
  void class_agrees_with_published_point(
      String texture, double sand, double silt, double clay, String source) {
    assertThat(TextureTriangle.classify(sand, silt, clay))
        .as(source)
        .isEqualTo(Word.of(Texture.class, "texture", texture));
  }

  /**
   * Every class rule, written out again as a predicate from the published limits; each
   * quarter-percent point must meet exactly one.
   */
  @Test
  void rules_cover_the_triangle_once_and_only_once() {
    Map<Texture, Integer> points = new EnumMap<>(Texture.class);
    for (int s4 = 0; s4 <= 400; s4++) {
      for (int c4 = 0; c4 <= 400 - s4; c4++) {
        double sand = s4 / 4.0;
        double clay = c4 / 4.0;
        double silt = 100 - sand - clay;
        List<Texture> met =
            java.util.Arrays.stream(Texture.values())
                .filter(t -> rule(t, sand, silt, clay))
                .toList();
        assertThat(met)
            .as("%s sand %s silt %s clay", sand, silt, clay)
            .containsExactly(TextureTriangle.classify(sand, silt, clay));
        points.merge(met.get(0), 1, Integer::sum);
      }
    }
    assertThat(points).hasSize(12);
  }

  @Test
  void parts_that_do_not_add_up_are_refused() {
    assertThatThrownBy(() -> TextureTriangle.classify(50, 30, 10))
        .isInstanceOf(Refusal.Conflict.class)
        .hasMessageContaining("90");
    assertThatThrownBy(() -> TextureTriangle.classify(Double.NaN, 30, 10))
        .isInstanceOf(Refusal.OutOfRange.class);
    assertThatThrownBy(() -> TextureTriangle.classify(-1, 60, 41))
        .isInstanceOf(Refusal.OutOfRange.class);
  }

  @Test
  void rounded_parts_are_taken() {
    assertThat(TextureTriangle.classify(33, 33, 33)).isEqualTo(Texture.CLAY_LOAM);
  }

  /** Limits as in the USDA-NRCS estimator; see the resource's head for the source. */
  private static boolean rule(Texture t, double sand, double silt, double clay) {
    return switch (t) {
      case SAND -> silt + 1.5 * clay < 15;
      case LOAMY_SAND -> silt + 1.5 * clay >= 15 && silt + 2 * clay < 30;
      case SANDY_LOAM ->
          clay >= 7 && clay < 20 && sand > 52 && silt + 2 * clay >= 30
              || clay < 7 && silt < 50 && silt + 2 * clay >= 30;
      case LOAM -> clay >= 7 && clay < 27 && silt >= 28 && silt < 50 && sand <= 52;
      case SILT_LOAM ->
          silt >= 50 && clay >= 12 && clay < 27 || clay < 12 && silt >= 50 && silt < 80;
      case SILT -> silt >= 80 && clay < 12;
      case SANDY_CLAY_LOAM -> clay >= 20 && clay < 35 && silt < 28 && sand > 45;
      case CLAY_LOAM -> clay >= 27 && clay < 40 && sand > 20 && sand <= 45;
      case SILTY_CLAY_LOAM -> clay >= 27 && clay < 40 && sand <= 20;
      case SANDY_CLAY -> clay >= 35 && sand > 45;
      case SILTY_CLAY -> clay >= 40 && silt >= 40;
      case CLAY -> clay >= 40 && silt < 40 && sand <= 45;
    };
  }
}
