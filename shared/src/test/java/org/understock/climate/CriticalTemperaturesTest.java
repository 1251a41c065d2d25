package org.understock.climate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.understock.climate.CriticalTemperatures.Stage;
import org.understock.plant.Crop;

class CriticalTemperaturesTest {
  private static final CriticalTemperatures TABLE = CriticalTemperatures.published();

  /**
   * Apple full bloom: 28 and 25 °F (msu-critical-spring-temperatures), that is -2.2 and -3.9 °C.
   */
  @Test
  void the_published_points_are_met() {
    Stage bloom = TABLE.stage(Crop.APPLE, "Full bloom").orElseThrow();
    assertThat(bloom.kill10C()).isCloseTo(-2.2, within(0.05));
    assertThat(bloom.kill90C()).isCloseTo(-3.9, within(0.05));
    for (Crop crop : Crop.values()) {
      for (Stage stage : TABLE.stages(crop)) {
        if (stage.kill90C() == null) continue;
        assertThat(stage.shareKilled(stage.kill10C()).getAsDouble()).isCloseTo(0.1, within(1e-12));
        assertThat(stage.shareKilled(stage.kill90C()).getAsDouble()).isCloseTo(0.9, within(1e-12));
      }
    }
  }

  /**
   * By hand: middle -3.05556, slope 2 ln 9 / 1.66667 = 2.63667; at -3.0: 1/(1 + e^0.146482) =
   * 0.463445; at -5.0: 1/(1 + e^-5.126858) = 0.994100.
   */
  @Test
  void between_the_points_runs_a_logistic_curve() {
    Stage bloom = TABLE.stage(Crop.APPLE, "full bloom").orElseThrow();
    assertThat(bloom.shareKilled(-3.0).getAsDouble()).isCloseTo(0.463445, within(1e-6));
    assertThat(bloom.shareKilled(-5.0).getAsDouble()).isCloseTo(0.994100, within(1e-6));
  }

  /**
   * Hardiness is lost from stage to stage: no later stage of the table bears more cold than an
   * earlier one.
   */
  @Test
  void later_stages_bear_no_more_cold_than_earlier_ones() {
    for (Crop crop : Crop.values()) {
      List<Stage> stages = TABLE.stages(crop);
      for (int k = 1; k < stages.size(); k++) {
        assertThat(stages.get(k).kill10C())
            .as("%s %s", crop, stages.get(k).name())
            .isGreaterThanOrEqualTo(stages.get(k - 1).kill10C());
      }
    }
  }

  @Test
  void crops_and_points_without_figures_get_no_answer() {
    assertThat(TABLE.stages(Crop.JAPANESE_PLUM)).isEmpty();
    assertThat(TABLE.stages(Crop.QUINCE)).isEmpty();
    assertThat(TABLE.stages(Crop.ASIAN_PEAR)).isEmpty();
    assertThat(TABLE.stage(Crop.APRICOT, "swollen bud").orElseThrow().shareKilled(-12)).isEmpty();
    assertThat(TABLE.stages(Crop.TART_CHERRY)).hasSize(7);
  }

  @Test
  void survivals_of_several_frosts_multiply() {
    OptionalDouble both =
        CriticalTemperatures.shareSurviving(
            List.of(OptionalDouble.of(0.1), OptionalDouble.of(0.5)));
    assertThat(both.getAsDouble()).isCloseTo(0.45, within(1e-12));
    assertThat(
            CriticalTemperatures.shareSurviving(
                List.of(OptionalDouble.of(0.1), OptionalDouble.empty())))
        .isEmpty();
  }
}
