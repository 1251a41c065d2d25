package org.understock.plant;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NamesTest {
  /**
   * The second three are what parts optimal string alignment from plain and from unrestricted edit
   * distance.
   */
  @ParameterizedTest
  @CsvSource({
    "'', '', 0",
    "gala, '', 4",
    "kitten, sitting, 3",
    "mm160, mm106, 1",
    "crop, corp, 1",
    "ca, abc, 3",
    "abcd, badc, 2",
    "same, same, 0"
  })
  void edits_are_letters_put_in_left_out_changed_or_swapped(String a, String b, int edits) {
    assertThat(Names.editDistance(a, b)).isEqualTo(edits);
    assertThat(Names.editDistance(b, a)).isEqualTo(edits);
  }

  @Test
  void swapped_figures_lead_to_the_stock_that_was_meant() {
    Names names = new Names();
    for (String id : List.of("m-10", "m-16", "m-26", "mm-104", "mm-106", "mm-111"))
      names.add(id, id, List.of());
    assertThat(names.nearest("mm-160", 3).get(0)).isEqualTo("mm-106");
    assertThat(names.nearest("MM 601", 6)).contains("mm-106");
  }
}
