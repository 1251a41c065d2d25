package org.understock.impact;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.EnumSet;
import java.util.List;
import java.util.Objects;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.understock.plant.Crop;
import org.understock.site.Goal;
import org.understock.site.Soil;

class KeptExamplesTest {
  private static final List<ExampleQuestion> ALL = KeptExamples.all();

  @Test
  void they_are_of_all_crops_purposes_and_many_soils() {
    assertThat(ALL.stream().map(e -> e.question().crop()).collect(Collectors.toSet()))
        .isEqualTo(EnumSet.allOf(Crop.class));
    assertThat(
            ALL.stream()
                .map(e -> e.question().goal().purpose())
                .filter(Objects::nonNull)
                .collect(Collectors.toSet()))
        .isEqualTo(EnumSet.allOf(Goal.Purpose.class));
    assertThat(
            ALL.stream()
                .map(e -> e.question().site().soil().drainage())
                .filter(Objects::nonNull)
                .collect(Collectors.toSet()))
        .contains(
            Soil.Drainage.WELL_DRAINED,
            Soil.Drainage.POORLY_DRAINED,
            Soil.Drainage.SOMEWHAT_EXCESSIVELY_DRAINED);
  }

  @Test
  void each_has_an_id_of_its_own_and_a_title() {
    assertThat(ALL)
        .extracting(ExampleQuestion::id)
        .doesNotHaveDuplicates()
        .allMatch(id -> id.matches("[a-z0-9]+(-[a-z0-9]+)*"));
    assertThat(ALL)
        .extracting(ExampleQuestion::title)
        .doesNotHaveDuplicates()
        .allMatch(title -> title.length() > 10);
  }
}
