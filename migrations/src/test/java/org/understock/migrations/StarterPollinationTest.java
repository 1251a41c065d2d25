package org.understock.migrations;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.understock.climate.SeasonLength;
import org.understock.evidence.TraitBook;
import org.understock.plant.Crop;
import org.understock.plant.Variety;
import org.understock.pollination.Overlap;
import org.understock.pollination.PairVerdict;
import org.understock.pollination.PairVerdict.Basis;
import org.understock.pollination.PollenCheck;
import org.understock.pollination.PollenNeed;
import org.understock.pollination.Pollination;
import org.understock.pollination.SetVerdict;
import org.understock.pollination.Verdict;
import org.understock.wording.Words;

/**
 * The pollination rules on the starter evidence, against what its sources say of pairs and
 * varieties.
 */
class StarterPollinationTest {
  private static final TraitBook BOOK = new PlainBook(StarterEvidence.read().evidence());

  private static List<String> ids(Crop crop) {
    return BOOK.plants().varieties().stream()
        .filter(v -> v.crop() == crop)
        .map(Variety::id)
        .toList();
  }

  /**
   * Sources: osu-cherry-chart (groups), goldway-1999-topred, matsumoto-2014-apple-s,
   * egea-1996-apricot, zisovich-2004-pear, halasz-2007-plum, hortnz-nashi (pairs named as not
   * working).
   */
  @ParameterizedTest
  @CsvSource({
    "sweet-cherry,van,regina,NONE", "sweet-cherry,regina,kordia,PARTIAL",
        "sweet-cherry,schneiders,regina,PARTIAL",
    "sweet-cherry,rainier,sam,PARTIAL", "sweet-cherry,somerset,black-tartarian,FULL",
        "sweet-cherry,bing,napoleon,NONE",
    "apple,golden-delicious,delicious,FULL", "apple,jonathan,delicious,PARTIAL",
        "apple,tsugaru,fuji,FULL",
    "apricot,goldrich,hargrand,NONE", "apricot,lambertin-1,goldrich,NONE",
        "european-pear,coscia,spadona,PARTIAL",
    "european-pear,gentile,spadona,PARTIAL", "japanese-plum,october-sun,black-amber,NONE",
        "asian-pear,kikusui,nijisseiki,NONE",
    "asian-pear,shinsui,kosui,NONE"
  })
  void pairs_come_out_as_published(String crop, String donor, String receiver, Verdict verdict) {
    PairVerdict pair = Pollination.of(BOOK, Crop.of(crop)).verdict(donor, receiver);
    assertThat(pair.verdict()).as(pair.text(Words.ENGLISH)).isEqualTo(verdict);
    assertThat(pair.records()).isNotEmpty();
  }

  /** Each of these is named as a partner by the source of its row: none may come out as NONE. */
  @Test
  void no_named_partner_is_called_incompatible() {
    for (Crop crop : Crop.values()) {
      Pollination pollination = Pollination.of(BOOK, crop);
      for (String receiver : ids(crop)) {
        for (String donor : ids(crop)) {
          assertThat(pollination.verdict(donor, receiver).basis())
              .isNotEqualTo(Basis.PUBLISHED_AGAINST_ALLELES);
        }
      }
    }
  }

  @ParameterizedTest
  @CsvSource({
    "apple,bramley-s-seedling,NEEDS_TWO",
    "apple,jonagold,NEEDS_TWO",
    "apple,mutsu,NEEDS_TWO",
    "apple,fuji,NEEDS_ONE",
    "apple,braeburn,PARTLY",
    "european-pear,magness,NEEDS_TWO",
    "asian-pear,niitaka,NEEDS_TWO",
    "asian-pear,osa-nijisseiki,SELF_FERTILE",
    "sweet-cherry,lapins,SELF_FERTILE",
    "sweet-cherry,cristobalina,SELF_FERTILE",
    "sweet-cherry,samba,NEEDS_ONE",
    "sweet-cherry,bing,NEEDS_ONE",
    "peach,j-h-hale,NEEDS_ONE",
    "european-plum,stanley,SELF_FERTILE",
    "european-plum,president,NEEDS_ONE",
    "apricot,katy,SELF_FERTILE",
    "apricot,colorao,NEEDS_ONE",
    "tart-cherry,pandy,NEEDS_ONE",
    "quince,smyrna,PARTLY"
  })
  void needs_come_out_as_published(String crop, String variety, PollenNeed need) {
    assertThat(Pollination.of(BOOK, Crop.of(crop)).need(variety)).isEqualTo(need);
  }

  @Test
  void every_recorded_genotype_can_be_read() {
    for (Crop crop : Crop.values()) {
      Pollination pollination = Pollination.of(BOOK, crop);
      List<String> ids = ids(crop);
      for (int k = 0; k < ids.size(); k++) {
        assertThat(
                pollination.verdict(ids.get(k), ids.get((k + 1) % ids.size())).text(Words.ENGLISH))
            .doesNotContain("could not be read");
      }
    }
  }

  private static SetVerdict check(String crop, String set) {
    Map<Crop, Pollination> crops = new EnumMap<>(Crop.class);
    List<Variety> varieties =
        List.of(set.split(" ")).stream()
            .map(id -> BOOK.plants().requireVariety("set", Crop.of(crop), id))
            .toList();
    return new PollenCheck(c -> crops.computeIfAbsent(c, k -> Pollination.of(BOOK, k)))
        .check(varieties, null, 5);
  }

  /**
   * Sources: japs-2018-honeycrisp-pollen (Gala's pollen sets Honeycrisp), osu-cherry-chart (Bing,
   * Lambert and Napoleon are one group; Rainier is of another; Lapins is fertile by itself),
   * usu-intermountain-peach (any other peach for J.H. Hale), niab-apple-pollinators (triploids
   * serve nobody, so a set of them bears nothing), nc-hil-302 (Paulared and Fuji do not meet; both
   * sets of bloom data count, so this one is only not sure).
   */
  @ParameterizedTest
  @CsvSource({
    "apple,honeycrisp gala,SERVED",
    "sweet-cherry,bing lambert napoleon,UNSERVED",
    "sweet-cherry,bing lambert rainier,SERVED",
    "sweet-cherry,lapins,SERVED",
    "peach,j-h-hale,UNSERVED",
    "peach,j-h-hale contender,SERVED",
    "apple,jonagold mutsu bramley-s-seedling,UNSERVED",
    "apple,mutsu fuji,UNSERVED",
    "apple,paulared fuji,UNSURE"
  })
  void sets_come_out_as_published(String crop, String set, SetVerdict.State outcome) {
    assertThat(check(crop, set).outcome()).isEqualTo(outcome);
  }

  /**
   * A triploid is planted with two others that pollinate each other
   * (ontario-crabapple-pollenizers).
   */
  @Test
  void additions_mend_what_they_are_said_to_mend() {
    for (String set :
        List.of(
            "apple,mutsu",
            "apple,mutsu fuji",
            "apple,jonagold mutsu",
            "sweet-cherry,bing lambert",
            "sweet-cherry,regina",
            "european-pear,bartlett",
            "asian-pear,nijisseiki kikusui",
            "japanese-plum,black-amber",
            "peach,j-h-hale")) {
      String[] parts = set.split(",");
      SetVerdict before = check(parts[0], parts[1]);
      assertThat(before.mendings()).as(set).hasSize(1);
      SetVerdict.Mending mending = before.mendings().get(0);
      assertThat(mending.beyond()).as(set).isEmpty();
      assertThat(mending.options()).as(set).isNotEmpty();
      for (List<Variety> option : mending.options()) {
        String whole = parts[1] + " " + String.join(" ", option.stream().map(Variety::id).toList());
        assertThat(check(parts[0], whole).complete()).as(whole).isTrue();
      }
    }
    assertThat(check("apple", "mutsu").mendings().get(0).options())
        .allSatisfy(option -> assertThat(option).hasSize(2));
  }

  /**
   * Alleles of Bramley's Seedling are not recorded: nothing is sure to serve it, and the answer
   * says what most likely does.
   */
  @Test
  void where_alleles_are_not_recorded_additions_are_likely_and_not_sure() {
    SetVerdict.Mending mending = check("apple", "bramley-s-seedling").mendings().get(0);
    assertThat(mending.options()).isEmpty();
    assertThat(mending.beyond()).containsExactly("bramley-s-seedling");
    assertThat(mending.likely())
        .isNotEmpty()
        .allSatisfy(option -> assertThat(option).hasSizeBetween(1, 2));
    assertThat(mending.stillBeyond()).isEmpty();
  }

  /**
   * Triploid apples give little and mostly sterile pollen (niab-apple-pollinators,
   * ontario-crabapple-pollenizers): nobody's partner.
   */
  @Test
  void no_triploid_is_offered_as_a_partner() {
    Pollination apples = Pollination.of(BOOK, Crop.APPLE);
    for (String receiver : ids(Crop.APPLE)) {
      assertThat(apples.partners(receiver, 300))
          .extracting(p -> p.variety().id())
          .doesNotContain("jonagold", "mutsu", "bramley-s-seedling", receiver);
    }
  }

  /** Paulared and Fuji do not overlap in North Carolina (nc-hil-302). */
  @Test
  void a_published_miss_of_bloom_is_not_called_good() {
    assertThat(Pollination.of(BOOK, Crop.APPLE).verdict("paulared", "fuji").overlap())
        .isIn(Overlap.SOME, Overlap.POOR);
  }

  /** Regina is among the latest to bloom (osu-cherry-chart, period V). */
  @Test
  void partners_of_a_late_cherry_bloom_with_it() {
    Pollination cherries = Pollination.of(BOOK, Crop.SWEET_CHERRY);
    assertThat(cherries.partners("regina", 5))
        .isNotEmpty()
        .allSatisfy(p -> assertThat(p.pair().chanceOfOverlap()).isGreaterThan(0.8))
        .allSatisfy(p -> assertThat(p.pair().verdict()).isEqualTo(Verdict.FULL));
  }

  /**
   * University of Maine, Growing fruit trees in Maine: these do not ripen there; the frost-free
   * season is about 149 days.
   */
  @ParameterizedTest
  @CsvSource({"mutsu", "rome-beauty", "granny-smith"})
  void late_apples_do_not_ripen_in_a_short_season(String variety) {
    SeasonLength season = SeasonLength.of(BOOK, Crop.APPLE);
    assertThat(season.chanceRipens(variety, 149.0).getAsDouble()).isLessThan(0.4);
    assertThat(season.chanceRipens(variety, 210.0).getAsDouble()).isGreaterThan(0.9);
    assertThat(season.chanceRipens("cortland", 149.0).getAsDouble()).isGreaterThan(0.8);
  }
}
