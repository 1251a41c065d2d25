package org.understock.service.planting;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.understock.planting.PlantingQuestion;
import org.understock.wording.Words;

class MarkTest {
  /** Outline and whether it is filled are what is left of a mark in black and white. */
  @Test
  void no_two_pairings_of_a_plan_look_alike_without_colour() {
    Set<String> seen = new HashSet<>();
    for (int k = 0; k < PlantingQuestion.MOST_PAIRINGS; k++) {
      StringBuilder path = new StringBuilder();
      Mark.add(path, k, 0, 0, 10);
      assertThat(seen.add(path + " " + Mark.of(k).fill().equals(Mark.of(k).stroke())))
          .as("mark %s", k)
          .isTrue();
    }
  }

  @Test
  void runs_of_places_are_drawn_together() {
    assertThat(PlanSheets.spans(List.of(1, 2, 3, 5, 8, 9), Words.ENGLISH))
        .isEqualTo("1 to 3, 5, 8 to 9");
    assertThat(PlanSheets.spans(List.of(7), Words.ENGLISH)).isEqualTo("7");
  }
}
