package org.understock.pollination;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.understock.evidence.Grade;
import org.understock.plant.Crop;
import org.understock.pollination.PairVerdict.Basis;
import org.understock.trait.Refusal;
import org.understock.wording.Words;

class PollinationTest {

  /**
   * Bramley's Seedling: triploid, little pollen and most of it sterile (niab-apple-pollinators).
   * Alleles of Fuji: matsumoto-2014-apple-s.
   */
  @Test
  void a_triploid_gives_no_usable_pollen_and_needs_two_others() {
    Pollination apples =
        Pollination.of(
            new Orchard()
                .with(Crop.APPLE, "Bramley's Seedling")
                .ploidy(3)
                .with(Crop.APPLE, "Fuji")
                .alleles("S1S9")
                .with(Crop.APPLE, "Tsugaru")
                .alleles("S3S7"),
            Crop.APPLE);
    PairVerdict pair = apples.verdict("bramley-s-seedling", "fuji");
    assertThat(pair.verdict()).isEqualTo(Verdict.NONE);
    assertThat(pair.text(Words.ENGLISH)).contains("triploid");
    assertThat(pair.records()).containsExactly("bramley-s-seedling/ploidy");
    assertThat(apples.need("bramley-s-seedling")).isEqualTo(PollenNeed.NEEDS_TWO);
    assertThat(apples.partners("fuji", 5))
        .extracting(p -> p.variety().id())
        .containsExactly("tsugaru");
  }

  /**
   * Magness pear is diploid and its pollen is sterile; two further varieties are needed
   * (psu-home-pears).
   */
  @Test
  void sterile_pollen_counts_as_none_in_a_diploid_too() {
    Pollination pears =
        Pollination.of(
            new Orchard()
                .with(Crop.EUROPEAN_PEAR, "Magness")
                .pollenFertile("no")
                .with(Crop.EUROPEAN_PEAR, "Bartlett"),
            Crop.EUROPEAN_PEAR);
    assertThat(pears.verdict("magness", "bartlett").basis()).isEqualTo(Basis.STERILE_POLLEN);
    assertThat(pears.need("magness")).isEqualTo(PollenNeed.NEEDS_TWO);
  }

  /** J.H. Hale needs another peach or nectarine, and any will do (usu-intermountain-peach). */
  @Test
  void a_sterile_peach_needs_one_partner_because_partners_serve_themselves() {
    Pollination peaches =
        Pollination.of(
            new Orchard()
                .with(Crop.PEACH, "J.H. Hale")
                .selfFertile("no")
                .pollenFertile("no")
                .with(Crop.PEACH, "Contender")
                .selfFertile("yes"),
            Crop.PEACH);
    assertThat(peaches.need("j-h-hale")).isEqualTo(PollenNeed.NEEDS_ONE);
    assertThat(peaches.verdict("contender", "j-h-hale").verdict()).isEqualTo(Verdict.FULL);
  }

  @Test
  void kinds_that_do_not_cross_are_kept_apart() {
    Orchard orchard =
        new Orchard()
            .with(Crop.EUROPEAN_PLUM, "Stanley")
            .with(Crop.JAPANESE_PLUM, "Shiro")
            .with(Crop.SWEET_CHERRY, "Bing")
            .alleles("S3S4")
            .with(Crop.TART_CHERRY, "Montmorency")
            .with(Crop.APPLE, "Fuji");
    assertThat(Pollination.of(orchard, Crop.JAPANESE_PLUM).verdict("stanley", "shiro").verdict())
        .isEqualTo(Verdict.NONE);
    assertThat(Pollination.of(orchard, Crop.EUROPEAN_PLUM).verdict("shiro", "stanley").verdict())
        .isEqualTo(Verdict.NONE);
    PairVerdict cherry = Pollination.of(orchard, Crop.SWEET_CHERRY).verdict("montmorency", "bing");
    assertThat(cherry.basis()).isEqualTo(Basis.SPECIES_WALL);
    assertThat(cherry.text(Words.ENGLISH))
        .isEqualTo("No tart cherry is a pollen partner for any sweet cherry.");
    assertThat(Pollination.of(orchard, Crop.APPLE).verdict("bing", "fuji").verdict())
        .isEqualTo(Verdict.NONE);
  }

  /**
   * European and Asian pears can pollinate each other if they bloom together
   * (wsu-pear-pollination).
   */
  @Test
  void european_and_asian_pear_cross_though_their_alleles_are_not_compared() {
    Orchard orchard =
        new Orchard()
            .with(Crop.EUROPEAN_PEAR, "Packham's Triumph")
            .alleles("S101S103")
            .with(Crop.ASIAN_PEAR, "Nijisseiki")
            .alleles("S2S4");
    PairVerdict pair =
        Pollination.of(orchard, Crop.ASIAN_PEAR).verdict("packham-s-triumph", "nijisseiki");
    assertThat(pair.verdict()).isEqualTo(Verdict.PARTIAL);
    assertThat(pair.basis()).isEqualTo(Basis.KINDS_CROSS);
    assertThat(pair.overlap()).isEqualTo(Overlap.UNKNOWN);
  }

  /**
   * Katy: S1S2 and self-fertile through a pollen-part mutation outside the S-locus
   * (munoz-sanz-2017-apricot).
   */
  @Test
  void self_fertility_is_read_before_the_alleles() {
    Pollination apricots =
        Pollination.of(
            new Orchard()
                .with(Crop.APRICOT, "Katy")
                .alleles("S1S2")
                .selfFertile("yes")
                .with(Crop.APRICOT, "Goldrich")
                .alleles("S1S2")
                .selfFertile("no"),
            Crop.APRICOT);
    assertThat(apricots.self("katy").verdict()).isEqualTo(Verdict.FULL);
    assertThat(apricots.need("katy")).isEqualTo(PollenNeed.SELF_FERTILE);
    assertThat(apricots.self("goldrich").verdict()).isEqualTo(Verdict.NONE);
    PairVerdict pair = apricots.verdict("katy", "goldrich");
    assertThat(pair.verdict()).isEqualTo(Verdict.UNKNOWN);
    assertThat(pair.basis()).isEqualTo(Basis.BEYOND_ALLELES);
    assertThat(pair.text(Words.ENGLISH)).contains("Katy is self-fertile");
  }

  /** Colorao: S5Sc, male-sterile, not self-fertile (munoz-sanz-2017-apricot). */
  @Test
  void a_male_sterile_carrier_of_sc_is_not_self_fertile() {
    Pollination apricots =
        Pollination.of(
            new Orchard()
                .with(Crop.APRICOT, "Colorao")
                .alleles("S5Sc")
                .selfFertile("no")
                .pollenFertile("no"),
            Crop.APRICOT);
    assertThat(apricots.self("colorao").verdict()).isEqualTo(Verdict.NONE);
  }

  @Test
  void alleles_tell_self_fertility_where_no_record_does() {
    Pollination cherries =
        Pollination.of(
            new Orchard()
                .with(Crop.SWEET_CHERRY, "Lapins")
                .alleles("S1S4'")
                .with(Crop.SWEET_CHERRY, "Regina")
                .alleles("S1S3")
                .with(Crop.SWEET_CHERRY, "Nameless"),
            Crop.SWEET_CHERRY);
    assertThat(cherries.need("lapins")).isEqualTo(PollenNeed.SELF_FERTILE);
    assertThat(cherries.partnerNeed("lapins").chanceNeeded()).isCloseTo(14 / 1484.0, within(1e-12));
    assertThat(cherries.need("regina")).isEqualTo(PollenNeed.NEEDS_ONE);
    assertThat(cherries.partnerNeed("regina").records()).containsExactly("regina/s-alleles");
    PartnerNeed nameless = cherries.partnerNeed("nameless");
    assertThat(nameless.need()).isEqualTo(PollenNeed.NEEDS_ONE);
    assertThat(nameless.chanceNeeded()).isCloseTo(1 - 91 / 1483.0, within(1e-12));
    assertThat(nameless.grade()).isEqualTo(Grade.D);
    assertThat(nameless.sources()).contains("schuster-2020-cherry-s");
  }

  /**
   * 47 of 92 apricots were self-compatible (herrera-2018-apricot): nothing known means nothing
   * said.
   */
  @Test
  void an_apricot_of_which_nothing_is_known_stays_open() {
    Pollination apricots =
        Pollination.of(new Orchard().with(Crop.APRICOT, "Nameless"), Crop.APRICOT);
    assertThat(apricots.need("nameless")).isEqualTo(PollenNeed.UNKNOWN);
    assertThat(apricots.needsPartner("nameless")).isTrue();
    assertThat(apricots.partnerNeed("nameless").chanceNeeded()).isCloseTo(45 / 92.0, within(1e-12));
  }

  /**
   * Bing: S3S4 by three statements, S1S3 by one; Tulare: S1S2 and S1S4 with nothing to choose
   * (schuster-2020-cherry-s).
   */
  @Test
  void a_lone_dissent_gives_way_and_an_even_split_stays_open() {
    Pollination cherries =
        Pollination.of(
            new Orchard()
                .with(Crop.SWEET_CHERRY, "Bing")
                .alleles("S3S4", "S1S3", "S3S4", "S3S4")
                .with(Crop.SWEET_CHERRY, "Tulare")
                .alleles("S1S2", "S1S4")
                .with(Crop.SWEET_CHERRY, "Lambert")
                .alleles("S3S4")
                .with(Crop.SWEET_CHERRY, "Black Tartarian")
                .alleles("S1S2"),
            Crop.SWEET_CHERRY);
    assertThat(cherries.verdict("bing", "lambert").verdict()).isEqualTo(Verdict.NONE);
    assertThat(cherries.verdict("tulare", "black-tartarian").verdict()).isEqualTo(Verdict.UNKNOWN);
    PairVerdict pair = cherries.verdict("tulare", "bing");
    assertThat(pair.verdict()).isEqualTo(Verdict.PARTIAL);
    assertThat(pair.basis()).isEqualTo(Basis.ALLELES_DISPUTED);
    assertThat(pair.text(Words.ENGLISH)).contains("Tulare (S1S2 or S1S4)");
  }

  /**
   * Both readings of Tulare are ordinary pairs of alleles, so it is self-sterile whichever is
   * right.
   */
  @Test
  void disputed_alleles_that_agree_on_self_sterility_settle_it() {
    Pollination cherries =
        Pollination.of(
            new Orchard().with(Crop.SWEET_CHERRY, "Tulare").alleles("S1S2", "S1S4"),
            Crop.SWEET_CHERRY);
    assertThat(cherries.self("tulare").basis()).isEqualTo(Basis.SELF_ALLELES);
    assertThat(cherries.partnerNeed("tulare").text().in(Words.ENGLISH))
        .isEqualTo("Tulare (S1S2 or S1S4) stops its own pollen and needs another variety.");
  }

  /**
   * Ten varieties of two genotypes: of 90 ordered pairs the 2 · 5 · 4 = 40 inside a group fail, so
   * 50/90 work.
   */
  @Test
  void a_pair_without_alleles_gets_the_usual_chance_of_its_crop() {
    Orchard orchard = new Orchard();
    for (int k = 0; k < 10; k++)
      orchard.with(Crop.SWEET_CHERRY, "Variety " + k).alleles(k < 5 ? "S1S2" : "S3S4");
    Pollination cherries =
        Pollination.of(orchard.with(Crop.SWEET_CHERRY, "Nameless"), Crop.SWEET_CHERRY);
    PairVerdict pair = cherries.verdict("nameless", "variety-1");
    assertThat(pair.verdict()).isEqualTo(Verdict.UNKNOWN);
    assertThat(pair.chanceUsable()).isCloseTo(50 / 90.0, within(1e-12));
    assertThat(pair.text(Words.ENGLISH)).contains("56 % work at least in part");
    assertThat(cherries.verdict("variety-0", "variety-1").chanceUsable()).isZero();
    assertThat(cherries.verdict("variety-0", "variety-9").chanceUsable()).isEqualTo(1);
  }

  @Test
  void a_partial_genotype_that_a_whole_one_covers_is_no_dispute() {
    Pollination apples =
        Pollination.of(
            new Orchard()
                .with(Crop.APPLE, "Delicious")
                .alleles("S9?", "S9S28")
                .with(Crop.APPLE, "Jonathan")
                .alleles("S7S9"),
            Crop.APPLE);
    assertThat(apples.verdict("jonathan", "delicious").basis()).isEqualTo(Basis.ALLELES);
  }

  /**
   * Tart cherry is tetraploid: pollen works with two non-functional haplotypes, so its alleles are
   * not read this way (hauck-2006-sour-cherry).
   */
  @Test
  void tart_cherry_alleles_are_not_read_by_the_diploid_rule() {
    Pollination cherries =
        Pollination.of(
            new Orchard()
                .with(Crop.TART_CHERRY, "Montmorency")
                .alleles("S6S13'SaSnull")
                .with(Crop.TART_CHERRY, "Surefire")
                .alleles("S4S13'SaSnull"),
            Crop.TART_CHERRY);
    PairVerdict pair = cherries.verdict("surefire", "montmorency");
    assertThat(pair.verdict()).isEqualTo(Verdict.UNKNOWN);
    assertThat(pair.text(Words.ENGLISH)).contains("four chromosome sets");
    assertThat(cherries.need("montmorency")).isEqualTo(PollenNeed.SELF_FERTILE);
  }

  /** A colour sport behaves as its parent: Topred as Delicious (schneider-2001-delicious). */
  @Test
  void a_sport_does_not_pollinate_its_parent_even_without_alleles() {
    Pollination apples =
        Pollination.of(
            new Orchard()
                .with(Crop.APPLE, "Delicious")
                .with(Crop.APPLE, "Topred")
                .sportOf("Delicious"),
            Crop.APPLE);
    assertThat(apples.verdict("topred", "delicious").basis()).isEqualTo(Basis.SPORT);
    assertThat(apples.verdict("delicious", "topred").verdict()).isEqualTo(Verdict.NONE);
  }

  /** Alderman: pollinated by Toka and Superior (umn-stone-fruit-gardens). */
  @Test
  void a_published_partner_stands_in_for_unknown_alleles_in_its_direction() {
    Pollination plums =
        Pollination.of(
            new Orchard()
                .with(Crop.JAPANESE_PLUM, "Alderman")
                .pollinatedBy("Toka,Superior")
                .with(Crop.JAPANESE_PLUM, "Superior")
                .with(Crop.JAPANESE_PLUM, "Toka"),
            Crop.JAPANESE_PLUM);
    assertThat(plums.verdict("toka", "alderman").verdict()).isEqualTo(Verdict.PARTIAL);
    assertThat(plums.verdict("toka", "alderman").records())
        .containsExactly("alderman/pollinated-by");
    assertThat(plums.verdict("alderman", "toka").verdict()).isEqualTo(Verdict.UNKNOWN);
  }

  @Test
  void alleles_that_cannot_be_read_are_named_and_decide_nothing() {
    Pollination apples =
        Pollination.of(
            new Orchard()
                .with(Crop.APPLE, "Fuji")
                .alleles("S1S9")
                .with(Crop.APPLE, "Oddity")
                .alleles("see text"),
            Crop.APPLE);
    PairVerdict pair = apples.verdict("oddity", "fuji");
    assertThat(pair.verdict()).isEqualTo(Verdict.UNKNOWN);
    assertThat(pair.text(Words.ENGLISH)).contains("alleles of Oddity could not be read");
  }

  /**
   * Paulared (early) and Fuji (mid) are the published example of no overlap (nc-hil-302). Regina V
   * and Van III are two periods apart.
   */
  @Test
  void bloom_two_classes_apart_is_too_far() {
    Pollination apples =
        Pollination.of(
            new Orchard()
                .with(Crop.APPLE, "Paulared")
                .bloomGroup("early")
                .with(Crop.APPLE, "Fuji")
                .bloomGroup("mid")
                .with(Crop.APPLE, "Gala")
                .bloomGroup("early-mid")
                .with(Crop.APPLE, "Cortland")
                .bloomGroup("mid")
                .with(Crop.APPLE, "Nameless"),
            Crop.APPLE);
    assertThat(apples.verdict("paulared", "fuji").overlap()).isEqualTo(Overlap.POOR);
    assertThat(apples.verdict("gala", "fuji").overlap()).isEqualTo(Overlap.SOME);
    assertThat(apples.verdict("cortland", "fuji").overlap()).isEqualTo(Overlap.GOOD);
    assertThat(apples.verdict("nameless", "fuji").overlap()).isEqualTo(Overlap.UNKNOWN);
  }

  /** Days after Burlat in wenden-2016-cherry: Regina 6.1, Summit 4.6, Bing 0.4. */
  @Test
  void bloom_days_go_before_bloom_classes() {
    Pollination cherries =
        Pollination.of(
            new Orchard()
                .with(Crop.SWEET_CHERRY, "Regina")
                .bloomDay(6.1, 1)
                .bloomGroup("late")
                .with(Crop.SWEET_CHERRY, "Summit")
                .bloomDay(4.6, 1)
                .bloomGroup("mid-late")
                .with(Crop.SWEET_CHERRY, "Bing")
                .bloomDay(0.4, 1),
            Crop.SWEET_CHERRY);
    assertThat(cherries.verdict("summit", "regina").overlap()).isEqualTo(Overlap.GOOD);
    assertThat(cherries.verdict("bing", "regina").overlap()).isEqualTo(Overlap.SOME);
    // 5.7 days apart, standard deviation √2. Bloom of 7 to 15 days less three to share: within 4,
    // 5, … 12 days. Normal table:
    // Φ(-1.2021) = 0.1147, Φ(-0.4950) = 0.3103, Φ(0.2121) = 0.5840, Φ(0.9192) = 0.8210, Φ(1.6263) =
    // 0.9481, Φ(2.3335) = 0.9902,
    // then 0.9988, 0.9999, 1
    double mean = (0.1147 + 0.3103 + 0.5840 + 0.8210 + 0.9481 + 0.9902 + 0.9988 + 0.9999 + 1) / 9;
    assertThat(cherries.verdict("bing", "regina").chanceOfOverlap()).isCloseTo(mean, within(1e-4));
  }

  /**
   * Paulared and Fuji: early and mid in North Carolina (nc-hil-302), -2.9 and -2.0 days in Nova
   * Scotia (watts-2021-abc).
   */
  @Test
  void days_and_classes_that_contradict_each_other_meet_in_the_middle() {
    Pollination apples =
        Pollination.of(
            new Orchard()
                .with(Crop.APPLE, "Paulared")
                .bloomGroup("early")
                .bloomDay(-2.9, 1)
                .with(Crop.APPLE, "Fuji")
                .bloomGroup("mid")
                .bloomDay(-2.0, 1),
            Crop.APPLE);
    PairVerdict pair = apples.verdict("paulared", "fuji");
    assertThat(pair.overlap()).isEqualTo(Overlap.SOME);
    assertThat(pair.records()).contains("fuji/bloom-day", "fuji/bloom-group");
  }

  @Test
  void partners_come_with_working_pollen_in_time_first_and_better_known_first_among_equals() {
    Pollination cherries =
        Pollination.of(
            new Orchard()
                .with(Crop.SWEET_CHERRY, "Regina")
                .alleles("S1S3")
                .bloomGroup("late")
                .with(Crop.SWEET_CHERRY, "Half")
                .alleles("S3S6")
                .bloomGroup("late")
                .with(Crop.SWEET_CHERRY, "Whole")
                .alleles("S2S4")
                .bloomGroup("late")
                .with(Crop.SWEET_CHERRY, "Whole and known")
                .alleles("S2S4")
                .bloomGroup("late")
                .selfFertile("no")
                .with(Crop.SWEET_CHERRY, "Whole but early")
                .alleles("S2S4")
                .bloomGroup("early")
                .with(Crop.SWEET_CHERRY, "Same")
                .alleles("S1S3")
                .bloomGroup("late"),
            Crop.SWEET_CHERRY);
    assertThat(cherries.partners("regina", 10))
        .extracting(p -> p.variety().id())
        .containsExactly("whole-and-known", "whole", "half", "whole-but-early");
    assertThat(cherries.partners("regina", 2)).hasSize(2);
    assertThat(cherries.partners("regina", 0)).isEmpty();
  }

  @Test
  void unknown_varieties_are_refused_with_the_crop_in_mind() {
    Pollination apples =
        Pollination.of(
            new Orchard().with(Crop.APPLE, "Fuji").with(Crop.QUINCE, "Smyrna"), Crop.APPLE);
    assertThatThrownBy(() -> apples.verdict("fuji", "smyrna")).isInstanceOf(Refusal.Unknown.class);
    assertThatThrownBy(() -> apples.verdict("no-such", "fuji")).isInstanceOf(Refusal.Unknown.class);
    assertThatThrownBy(() -> apples.need("no-such")).isInstanceOf(Refusal.Unknown.class);
  }
}
