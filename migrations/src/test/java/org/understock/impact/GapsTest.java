package org.understock.impact;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.understock.advice.Adviser;
import org.understock.evidence.CompiledTraitBook;
import org.understock.evidence.Evidence;
import org.understock.evidence.Method;
import org.understock.evidence.TraitRecord;
import org.understock.plant.Crop;
import org.understock.plant.Plants;
import org.understock.trait.Value;

/** Which evidence is worth most, over the starter evidence. */
class GapsTest {
  private static final List<Gap> GAPS = Gaps.of(Scenario.ADVISER, Scenario.KEPT);

  @Test
  void the_most_first_each_the_sum_of_its_examples() {
    GAPS.stream()
        .limit(15)
        .forEach(
            g ->
                System.out.printf(
                    "%6.2f %s, %s (%s): %s Look for %s.%n",
                    g.points(),
                    g.name(),
                    g.traitName(),
                    g.subject().crop().id(),
                    g.known(),
                    g.lookFor()));
    assertThat(GAPS)
        .hasSizeGreaterThan(500)
        .isSortedAccordingTo((a, b) -> Double.compare(b.points(), a.points()));
    assertThat(GAPS)
        .allSatisfy(
            gap -> {
              assertThat(gap.points())
                  .isPositive()
                  .isCloseTo(
                      gap.examples().stream().mapToDouble(Gap.Share::points).sum(), within(1e-9));
              assertThat(gap.examples())
                  .allMatch(share -> share.example().question().crop() == gap.subject().crop());
              assertThat(gap.known()).endsWith(".");
              assertThat(gap.lookFor()).contains(gap.name()).doesNotContain("%s");
            });
    assertThat(GAPS.stream().map(gap -> gap.subject() + " " + gap.trait())).doesNotHaveDuplicates();
  }

  @Test
  void what_is_known_is_told_from_the_records() {
    assertThat(GAPS)
        .filteredOn(gap -> gap.known().startsWith("No record"))
        .isNotEmpty()
        .allSatisfy(
            gap ->
                assertThat(
                        Scenario.ADVISER.book().records(gap.subject()).stream()
                            .noneMatch(r -> r.trait().equals(gap.trait())))
                    .isTrue());
    assertThat(GAPS).filteredOn(gap -> gap.known().contains("from 1 source")).isNotEmpty();
  }

  /** Twelve voices that agree leave little to learn: the gap nearly closes. */
  @Test
  void a_gap_that_was_filled_is_worth_less() {
    Gap gap = unrecorded("heavy-soil", Crop.EUROPEAN_PEAR);
    TraitRecord[] agreeing = new TraitRecord[12];
    for (int k = 0; k < agreeing.length; k++) {
      agreeing[k] =
          Scenario.record(
              gap.subject(), gap.trait(), new Value.Level("good"), Method.REPLICATED_MULTI_SITE, k);
    }
    assertThat(points(Scenario.with(agreeing), gap)).isLessThan(0.35 * gap.points());
  }

  @Test
  void a_chilling_requirement_told_by_many_is_hardly_worth_knowing_better() {
    Gap gap = unrecorded("chill-hours", Crop.EUROPEAN_PEAR);
    TraitRecord[] agreeing = new TraitRecord[12];
    for (int k = 0; k < agreeing.length; k++) {
      agreeing[k] =
          Scenario.record(
              gap.subject(),
              gap.trait(),
              new Value.Quantity(780 + 2 * k),
              Method.REPLICATED_MULTI_SITE,
              k);
    }
    assertThat(points(Scenario.with(agreeing), gap)).isLessThan(0.35 * gap.points());
  }

  @Test
  void nothing_can_be_gained_where_nothing_is_known_of_any_plant() {
    Evidence none =
        new Evidence(
            Scenario.EVIDENCE.traits(),
            new Plants(List.of(), List.of()),
            Scenario.EVIDENCE.sources(),
            List.of());
    assertThat(Gaps.of(Adviser.of(CompiledTraitBook.compile(1, none)), Scenario.KEPT)).isEmpty();
  }

  private static Gap unrecorded(String trait, Crop crop) {
    return GAPS.stream()
        .filter(
            g ->
                g.trait().equals(trait)
                    && g.known().startsWith("No record")
                    && g.subject().crop() == crop)
        .findFirst()
        .orElseThrow();
  }

  private static double points(Evidence evidence, Gap gap) {
    List<ExampleQuestion> concerned = gap.examples().stream().map(Gap.Share::example).toList();
    return Gaps.of(Adviser.of(CompiledTraitBook.compile(2, evidence)), concerned).stream()
        .filter(g -> g.subject().equals(gap.subject()) && g.trait().equals(gap.trait()))
        .mapToDouble(Gap::points)
        .findFirst()
        .orElse(0);
  }
}
