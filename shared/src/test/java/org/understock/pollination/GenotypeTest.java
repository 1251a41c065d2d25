package org.understock.pollination;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.understock.plant.Crop;
import org.understock.pollination.Allele.Known;
import org.understock.trait.Refusal;

class GenotypeTest {

  /**
   * Spellings as the literature prints them (apple, sweet cherry, tart cherry, pear and plum lists
   * of the evidence).
   */
  @ParameterizedTest
  @CsvSource(
      quoteCharacter = '"',
      value = {
        "apple,S3S9,S3S9,2",
        "apple,S2S3S20,S2S3S20,3",
        "apple,S9?,S9?,1",
        "sweet-cherry,S3S4',S3S4',2",
        "sweet-cherry,S4’S3,S3S4',2",
        "sweet-cherry,S4|S9,S4S9,2",
        "tart-cherry,S6m2S9S26Sa,S6m2S9S26Sa,4",
        "tart-cherry,S4S13'SaSnull,S4S13'SaSnull,4",
        "asian-pear,S2S4sm,S2S4sm,2",
        "european-pear,S101S114,S101S114,2",
        "european-pear,SjSk,SjSk,2",
        "apple,S16bS3,S3S16b,2",
        "apple,?,?,0"
      })
  void reads_every_usual_spelling(String crop, String text, String label, int alleles) {
    Genotype genotype = Genotype.parse(Crop.of(crop), text);
    assertThat(genotype.label()).isEqualTo(label);
    assertThat(genotype.alleles()).hasSize(alleles);
  }

  @ParameterizedTest
  @CsvSource({"apple,34", "apple,S", "apple,S3 and S4", "apple,unknown", "apple,S3S4!"})
  void refuses_what_is_no_genotype_and_says_how_to_write_one(String crop, String text) {
    assertThatThrownBy(() -> Genotype.parse(Crop.of(crop), text))
        .isInstanceOf(Refusal.Conflict.class)
        .hasMessageContaining("S3S4");
  }

  /** Sk = S3, Sc = S4, Se = S5, Sf = S6 (Halász and others 2007, source halasz-2007-plum). */
  @ParameterizedTest
  @CsvSource({"Sk,S3", "Sc,S4", "Se,S5", "Sf,S6"})
  void japanese_plum_letters_and_numbers_name_the_same_alleles(String letter, String number) {
    Allele a = Genotype.parse(Crop.JAPANESE_PLUM, letter).alleles().get(0);
    Allele b = Genotype.parse(Crop.JAPANESE_PLUM, number).alleles().get(0);
    assertThat(a.sameAs(b)).isEqualTo(Known.YES);
    assertThat(a.sameAs(Genotype.parse(Crop.JAPANESE_PLUM, "Sb").alleles().get(0)))
        .isEqualTo(Known.NO);
  }

  @Test
  void japanese_plum_letter_without_a_known_number_stays_open_against_numbers() {
    Allele letter = Genotype.parse(Crop.JAPANESE_PLUM, "Sb").alleles().get(0);
    Allele number = Genotype.parse(Crop.JAPANESE_PLUM, "S7").alleles().get(0);
    assertThat(letter.sameAs(number)).isEqualTo(Known.OPEN);
  }

  @Test
  void the_three_naming_series_of_european_pear_are_never_compared() {
    Allele letter = Genotype.parse(Crop.EUROPEAN_PEAR, "Sk").alleles().get(0);
    Allele low = Genotype.parse(Crop.EUROPEAN_PEAR, "S5").alleles().get(0);
    Allele high = Genotype.parse(Crop.EUROPEAN_PEAR, "S105").alleles().get(0);
    assertThat(letter.sameAs(low)).isEqualTo(Known.OPEN);
    assertThat(low.sameAs(high)).isEqualTo(Known.OPEN);
    assertThat(letter.sameAs(high)).isEqualTo(Known.OPEN);
  }

  @Test
  void a_partly_known_genotype_is_covered_by_the_whole_one() {
    Genotype part = Genotype.parse(Crop.APPLE, "S9?");
    assertThat(part.isCoveredBy(Genotype.parse(Crop.APPLE, "S9S28"))).isTrue();
    assertThat(part.isCoveredBy(Genotype.parse(Crop.APPLE, "S7S28"))).isFalse();
    assertThat(Genotype.parse(Crop.APPLE, "S9S28").isCoveredBy(part)).isFalse();
  }
}
