package org.understock.pollination;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.understock.plant.Crop;

class SRuleTest {
  private static SRule.Share share(Crop crop, String donor, String receiver, int sets) {
    return SRule.share(Genotype.parse(crop, donor), Genotype.parse(crop, receiver), sets);
  }

  /**
   * Alleles of the donor that the receiver lacks: 2, 1, 0 → all, half, none (rule of gametophytic
   * self-incompatibility, guerra-plum-s).
   */
  @ParameterizedTest
  @CsvSource({
    "S1S2,S3S4,FULL",
    "S1S2,S2S3,PARTIAL",
    "S1S2,S1S2,NONE",
    "S2S2,S1S2,NONE",
    "S2S2,S1S3,FULL"
  })
  void counts_the_donor_alleles_that_the_receiver_lacks(
      String donor, String receiver, Verdict verdict) {
    assertThat(share(Crop.SWEET_CHERRY, donor, receiver, 2).verdict()).isEqualTo(verdict);
  }

  /**
   * A pistil part that a pollen-part mutant keeps: S4 pollen on S3S4' is stopped, S4' pollen on
   * S3S4 is not.
   */
  @Test
  void a_primed_allele_gives_freely_and_receives_as_before() {
    assertThat(share(Crop.SWEET_CHERRY, "S3S4", "S3S4'", 2).verdict()).isEqualTo(Verdict.NONE);
    assertThat(share(Crop.SWEET_CHERRY, "S3S4'", "S3S4", 2)).isEqualTo(new SRule.Share(0.5, 0.5));
    assertThat(share(Crop.SWEET_CHERRY, "S1S4'", "S3S4'", 2).verdict()).isEqualTo(Verdict.FULL);
  }

  @Test
  void a_pistil_part_mutant_lets_its_own_allele_in_and_is_stopped_elsewhere() {
    assertThat(share(Crop.ASIAN_PEAR, "S2S4sm", "S2S4sm", 2).verdict()).isEqualTo(Verdict.PARTIAL);
    assertThat(share(Crop.ASIAN_PEAR, "S2S4sm", "S2S4", 2).verdict()).isEqualTo(Verdict.NONE);
    assertThat(share(Crop.ASIAN_PEAR, "S2S4", "S2S4sm", 2).verdict()).isEqualTo(Verdict.PARTIAL);
  }

  @Test
  void all_three_alleles_of_a_triploid_pistil_stop_pollen() {
    assertThat(share(Crop.APPLE, "S2S3", "S2S3S9", 3).verdict()).isEqualTo(Verdict.NONE);
    assertThat(share(Crop.APPLE, "S2S5", "S2S3S9", 3).verdict()).isEqualTo(Verdict.PARTIAL);
    assertThat(share(Crop.APPLE, "S5S7", "S2S3S9", 3).verdict()).isEqualTo(Verdict.FULL);
  }

  @Test
  void a_third_allele_that_is_not_recorded_is_not_forgotten() {
    assertThat(share(Crop.APPLE, "S5S7", "S2S3", 3)).isEqualTo(new SRule.Share(0.5, 1));
  }

  /** One unknown pistil allele can stop one of two different pollen alleles, never both. */
  @Test
  void an_unknown_allele_leaves_at_least_half() {
    assertThat(share(Crop.APPLE, "S1S2", "S3?", 2)).isEqualTo(new SRule.Share(0.5, 1));
    assertThat(share(Crop.APPLE, "S1S3", "S3?", 2)).isEqualTo(new SRule.Share(0, 0.5));
    assertThat(share(Crop.APPLE, "S9?", "S2S5", 2)).isEqualTo(new SRule.Share(0.5, 1));
    assertThat(share(Crop.APPLE, "S9?", "S9S28", 2)).isEqualTo(new SRule.Share(0, 0.5));
  }

  @Test
  void alleles_of_different_series_decide_nothing() {
    assertThat(share(Crop.EUROPEAN_PEAR, "SjSk", "S101S105", 2)).isEqualTo(new SRule.Share(0, 1));
  }

  /**
   * Se goes with self-compatibility, though a carrier was seen to stop its own pollen
   * (abdallah-2019-plum).
   */
  @Test
  void se_of_japanese_plum_proves_nothing_by_itself() {
    assertThat(share(Crop.JAPANESE_PLUM, "ScSe", "ScSe", 2)).isEqualTo(new SRule.Share(0, 0.5));
  }

  /** The bounds against brute force: every unknown allele replaced by every allele there is. */
  @Test
  void bounds_hold_whatever_the_unknown_alleles_are() {
    Random random = new Random(7);
    for (int n = 0; n < 3000; n++) {
      List<Integer> donor = draw(random);
      List<Integer> receiver = draw(random);
      boolean hideDonor = random.nextBoolean();
      boolean hideReceiver = random.nextBoolean();
      SRule.Share share =
          SRule.share(genotype(donor, hideDonor), genotype(receiver, hideReceiver), 2);
      double least = 1;
      double most = 0;
      for (int a = 1; a <= 6; a++) {
        for (int b = 1; b <= 6; b++) {
          List<Integer> d = List.of(donor.get(0), hideDonor ? a : donor.get(1));
          List<Integer> r = List.of(receiver.get(0), hideReceiver ? b : receiver.get(1));
          double works = d.stream().filter(x -> !r.contains(x)).count() / 2.0;
          least = Math.min(least, works);
          most = Math.max(most, works);
        }
      }
      assertThat(share)
          .as("%s%s on %s%s", donor, hideDonor, receiver, hideReceiver)
          .isEqualTo(new SRule.Share(least, most));
    }
  }

  private static List<Integer> draw(Random random) {
    int first = 1 + random.nextInt(6);
    int second = 1 + random.nextInt(5);
    return List.of(first, second >= first ? second + 1 : second);
  }

  private static Genotype genotype(List<Integer> alleles, boolean hideSecond) {
    List<String> text = new ArrayList<>(List.of("S" + alleles.get(0)));
    text.add(hideSecond ? "?" : "S" + alleles.get(1));
    return Genotype.parse(Crop.APPLE, String.join("", text));
  }
}
