package org.understock.climate;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.understock.evidence.Estimate;
import org.understock.evidence.Evidence;
import org.understock.evidence.Grade;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.evidence.TraitRecord;
import org.understock.plant.Crop;
import org.understock.plant.Plants;
import org.understock.plant.Variety;
import org.understock.trait.Traits;

/**
 * Ripening in days after Delicious from nc-hil-302 (weeks there; a range is taken at its middle).
 */
class SeasonLengthTest {
  private static final Map<String, Double> DAYS_AFTER_DELICIOUS =
      new LinkedHashMap<>(
          Map.of(
              "delicious",
              0.0,
              "mcintosh",
              -10.5,
              "cortland",
              -7.0,
              "gala",
              -14.0,
              "mutsu",
              10.5,
              "rome-beauty",
              21.0,
              "granny-smith",
              31.5));

  /**
   * A book whose offsets are counted from another variety than Delicious, by the given number of
   * days.
   */
  private record Book(double shift) implements TraitBook {
    @Override
    public long revision() {
      return 1;
    }

    @Override
    public Evidence evidence() {
      List<Variety> varieties =
          DAYS_AFTER_DELICIOUS.keySet().stream()
              .map(id -> new Variety(id, Crop.APPLE, id, List.of()))
              .toList();
      return new Evidence(
          new Traits(List.of()), new Plants(List.of(), varieties), Map.of(), List.of());
    }

    @Override
    public Optional<Estimate> estimate(Subject subject, String trait) {
      assertThat(trait).isEqualTo("harvest-offset");
      Double days = DAYS_AFTER_DELICIOUS.get(((Subject.OfVariety) subject).variety());
      return Optional.ofNullable(days)
          .map(
              d ->
                  new Estimate.Interval(
                      "days",
                      d + shift,
                      1,
                      2,
                      new Estimate.Support(List.of("r"), 1, Grade.C, Optional.empty())));
    }

    @Override
    public List<TraitRecord> records(Subject subject) {
      return List.of();
    }

    @Override
    public Optional<TraitRecord> record(String id) {
      return Optional.empty();
    }
  }

  private final SeasonLength apples = SeasonLength.of(new Book(0), Crop.APPLE);

  /**
   * These do not ripen in Maine (University of Maine, Growing fruit trees in Maine: selecting
   * varieties).
   */
  @ParameterizedTest
  @ValueSource(strings = {"mutsu", "rome-beauty", "granny-smith"})
  void varieties_published_as_too_late_for_maine_are_too_late_at_149_days(String variety) {
    assertThat(apples.chanceRipens(variety, 149.0).getAsDouble()).isLessThan(0.3);
  }

  /** Varieties listed for Vermont (uvm-cold-fruit) and ripening with or before Delicious. */
  @ParameterizedTest
  @ValueSource(strings = {"delicious", "cortland"})
  void varieties_planted_in_the_neighbouring_state_ripen(String variety) {
    assertThat(apples.chanceRipens(variety, 149.0).getAsDouble()).isGreaterThan(0.7);
  }

  @Test
  void a_longer_season_never_lowers_the_chance() {
    for (String variety : DAYS_AFTER_DELICIOUS.keySet()) {
      double before = 0;
      for (double days = 90; days < 260; days += 5) {
        double chance = apples.chanceRipens(variety, days).getAsDouble();
        assertThat(chance).isGreaterThanOrEqualTo(before);
        before = chance;
      }
      assertThat(before).isGreaterThan(0.99);
    }
  }

  @Test
  void the_zero_of_the_pooled_scale_does_not_matter() {
    SeasonLength shifted = SeasonLength.of(new Book(37), Crop.APPLE);
    for (String variety : DAYS_AFTER_DELICIOUS.keySet()) {
      assertThat(shifted.chanceRipens(variety, 150.0))
          .isEqualTo(apples.chanceRipens(variety, 150.0));
    }
  }

  @Test
  void without_evidence_there_is_no_answer() {
    assertThat(apples.chanceRipens("no-such", 150.0)).isEmpty();
    assertThat(apples.chanceRipens("gala", null)).isEmpty();
    assertThat(SeasonLength.of(new Book(0), Crop.PEACH).chanceRipens("gala", 150.0)).isEmpty();
  }
}
