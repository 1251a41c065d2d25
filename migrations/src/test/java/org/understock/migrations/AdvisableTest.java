package org.understock.migrations;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.understock.evidence.Advisable;
import org.understock.plant.Crop;

class AdvisableTest {
  private static final StarterEvidence STARTER = StarterEvidence.read();

  @ParameterizedTest
  @EnumSource(Crop.class)
  void everyCropHasSomethingToAdvise(Crop crop) {
    Advisable advisable = Advisable.of(STARTER.evidence(), crop);
    System.out.println(
        crop
            + ": "
            + advisable.stocks().size()
            + " stocks x "
            + advisable.varieties().size()
            + " varieties; stocks "
            + advisable.stocks());
    assertThat(advisable.stocks()).hasSizeGreaterThanOrEqualTo(3);
    assertThat(advisable.varieties()).hasSizeGreaterThanOrEqualTo(5);
  }

  /** The size of the whole-catalogue request that the speed target speaks of. */
  @Test
  void appleHasAtLeastEightThousandPairings() {
    Advisable apple = Advisable.of(STARTER.evidence(), Crop.APPLE);
    assertThat(apple.stocks().size() * apple.varieties().size()).isGreaterThanOrEqualTo(8000);
  }

  /**
   * Selections that the evidence knows from trials alone (autio-2017-honeycrisp, autio-2017-fuji),
   * and classes, are not advised unasked.
   */
  @Test
  void numberedSelectionsAndClassesAreNotAdvisedUnasked() {
    Advisable apple = Advisable.of(STARTER.evidence(), Crop.APPLE);
    assertThat(apple.stocks())
        .doesNotContain(
            "cg-4013",
            "b-70-6-8",
            "b-64-194",
            "g-41n",
            "g-41tc",
            "standard-seedling",
            "size-class-dwarf",
            "not-stated");
    assertThat(apple.stocks()).contains("m-7", "g-969", "mm-111", "m-9-t337", "b-9", "seedling");
  }
}
