package org.understock.evidence;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.understock.plant.Crop;
import org.understock.trait.Trait;
import org.understock.trait.Value;

/** The written rule of {@link Grade}, clause by clause, on invented records. */
class GradeTest {
  private static final Trait LEVELS =
      new Trait(
          "wet-soil",
          "Wet soil",
          "",
          Set.of(Trait.SubjectKind.STOCK),
          Trait.Scale.LEVELS,
          "",
          0,
          0,
          List.of("poor", "fair", "good", "very-good"));
  private static final Trait KILOGRAMS =
      new Trait(
          "mature-yield",
          "Yield",
          "",
          Set.of(Trait.SubjectKind.STOCK),
          Trait.Scale.QUANTITY,
          "kg/tree",
          0.5,
          1000,
          List.of());

  @Test
  void trials_and_voices_make_the_grade() {
    assertThat(
            grade(
                LEVELS,
                level("a", Method.REPLICATED_MULTI_SITE, "Table 1", "good"),
                level("b", Method.EXPERT_RATING, "p. 2", "good")))
        .isEqualTo(Grade.A);
    assertThat(grade(LEVELS, level("a", Method.REPLICATED_SINGLE_SITE, "Table 1", "good")))
        .isEqualTo(Grade.B);
    assertThat(grade(LEVELS, level("a", Method.EXPERT_RATING, "p. 1", "good"))).isEqualTo(Grade.C);
    assertThat(grade(LEVELS, level("memory", Method.FROM_MEMORY, "recalled", "good")))
        .isEqualTo(Grade.D);
  }

  @Test
  void what_only_an_abstract_tells_is_a_statement_and_no_trial() {
    assertThat(
            grade(
                LEVELS,
                level("a", Method.REPLICATED_MULTI_SITE, "abstract", "good"),
                level("b", Method.EXPERT_RATING, "p. 2", "good")))
        .isEqualTo(Grade.C);
    assertThat(grade(LEVELS, level("a", Method.REPLICATED_SINGLE_SITE, "Abstract, line 3", "good")))
        .isEqualTo(Grade.C);
  }

  @Test
  void voices_that_contradict_each_other_lose_a_grade() {
    TraitRecord trial = level("a", Method.REPLICATED_MULTI_SITE, "Table 1", "very-good");
    assertThat(grade(LEVELS, trial, level("b", Method.EXPERT_RATING, "p. 2", "good")))
        .as("neighbouring words")
        .isEqualTo(Grade.A);
    assertThat(grade(LEVELS, trial, level("b", Method.EXPERT_RATING, "p. 2", "fair")))
        .as("two levels apart")
        .isEqualTo(Grade.B);
    assertThat(
            grade(
                KILOGRAMS,
                kg("a", Method.REPLICATED_MULTI_SITE, 30),
                kg("b", Method.EXPERT_RATING, 50)))
        .isEqualTo(Grade.A);
    assertThat(
            grade(
                KILOGRAMS,
                kg("a", Method.REPLICATED_MULTI_SITE, 30),
                kg("b", Method.EXPERT_RATING, 61)))
        .isEqualTo(Grade.B);
    assertThat(
            grade(
                LEVELS,
                level("a", Method.EXPERT_RATING, "p. 1", "poor"),
                level("b", Method.EXPERT_RATING, "p. 2", "good")))
        .as("never below C for it")
        .isEqualTo(Grade.C);
  }

  private static Grade grade(Trait trait, TraitRecord... records) {
    return Grade.of(List.of(records), trait, Map.of());
  }

  private static TraitRecord level(String source, Method method, String locator, String level) {
    return record(source, "wet-soil", method, locator, new Value.Level(level));
  }

  private static TraitRecord kg(String source, Method method, double value) {
    return record(source, "mature-yield", method, "Table 1", new Value.Quantity(value));
  }

  private static TraitRecord record(
      String source, String trait, Method method, String locator, Value value) {
    return new TraitRecord(
        "r-" + source,
        new Subject.StockIn(Crop.APPLE, "m-7"),
        trait,
        value,
        method,
        source,
        locator,
        Context.NONE,
        "");
  }
}
