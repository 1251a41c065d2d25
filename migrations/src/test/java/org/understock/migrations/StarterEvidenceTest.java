package org.understock.migrations;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.understock.evidence.Canonical;
import org.understock.evidence.Evidence;
import org.understock.evidence.RecordCheck;
import org.understock.evidence.Source;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitRecord;
import org.understock.plant.Crop;
import org.understock.trait.Trait;

class StarterEvidenceTest {
  private static final StarterEvidence STARTER = StarterEvidence.read();
  private static final Evidence EVIDENCE = STARTER.evidence();

  @Test
  void everyRowIsUsable() {
    System.out.println(STARTER.report().details());
    assertThat(STARTER.report().refused()).isEmpty();
  }

  /**
   * About 6 900 published statements, 503 sources, 340 stocks and 1 030 varieties were gathered for
   * the first issue: none may get lost.
   */
  @Test
  void nothingThatWasGatheredIsLost() {
    assertThat(STARTER.report().loadedRows()).isGreaterThanOrEqualTo(6886);
    assertThat(EVIDENCE.sources()).hasSizeGreaterThanOrEqualTo(503);
    assertThat(EVIDENCE.plants().stocks()).hasSizeGreaterThanOrEqualTo(341);
    assertThat(EVIDENCE.plants().varieties()).hasSizeGreaterThanOrEqualTo(1034);
    assertThat(STARTER.orderings()).hasSizeGreaterThanOrEqualTo(311);
  }

  @Test
  void everyRecordHasSourceLocatorTraitAndAValueInRange() {
    RecordCheck check = new RecordCheck(EVIDENCE.traits(), EVIDENCE.plants(), EVIDENCE.sources());
    for (TraitRecord r : EVIDENCE.records()) {
      RecordCheck.Draft draft =
          new RecordCheck.Draft(
              r.subject(),
              r.trait(),
              r.value(),
              r.method(),
              r.source(),
              r.locator(),
              r.context(),
              r.note());
      assertThat(check.problems(draft)).as(r.toString()).isEmpty();
      assertThat(r.id()).isEqualTo(Canonical.id(draft));
      assertThat(r.locator()).isNotBlank();
    }
  }

  @Test
  void idsAreUnique() {
    Set<String> ids = new HashSet<>();
    for (TraitRecord r : EVIDENCE.records()) assertThat(ids.add(r.id())).as(r.toString()).isTrue();
  }

  /**
   * A statement from memory or unpublished common practice is marked, and never counts as a trial.
   */
  @Test
  void onlyPublicationsAreTaggedAsPublished() {
    for (TraitRecord r : EVIDENCE.records()) {
      Source source = EVIDENCE.sources().get(r.source());
      switch (r.method()) {
        case FROM_MEMORY -> assertThat(source.kind()).isEqualTo("memory");
        case COMMON_PRACTICE -> assertThat(source.kind()).isEqualTo("common-practice");
        case BREEDER_STATEMENT -> assertThat(source.kind()).isEqualTo("breeder-release");
        default -> assertThat(source.kind()).isNotIn("memory", "common-practice");
      }
    }
  }

  @ParameterizedTest
  @EnumSource(Crop.class)
  void everyCropHasStocksVarietiesAndEvidence(Crop crop) {
    assertThat(STARTER.species()).containsKey(crop);
    assertThat(EVIDENCE.plants().stocks()).anyMatch(s -> s.crops().contains(crop));
    assertThat(EVIDENCE.plants().varieties()).anyMatch(v -> v.crop() == crop);
    assertThat(EVIDENCE.records()).anyMatch(r -> r.subject().crop() == crop);
  }

  @Test
  void everyTraitIsDefinedAndLevelsRunUp() {
    for (Trait trait : EVIDENCE.traits().all()) {
      assertThat(trait.definition()).as(trait.id()).hasSizeGreaterThan(20);
      assertThat(trait.levels()).doesNotHaveDuplicates();
    }
    assertThat(EVIDENCE.traits().get("fire-blight").levels())
        .containsExactly(
            "very-susceptible",
            "susceptible",
            "moderately-susceptible",
            "moderately-resistant",
            "resistant",
            "immune");
    assertThat(EVIDENCE.traits().get("wet-soil").levels())
        .containsExactly("poor", "fair", "good", "very-good");
    assertThat(EVIDENCE.traits().get("suckering").levels())
        .containsExactly("none", "few", "moderate", "many");
  }

  @Test
  void originsDoNotChain() {
    for (Source source : EVIDENCE.sources().values()) {
      if (source.origin() != null)
        assertThat(EVIDENCE.sources().get(source.origin()).origin()).as(source.id()).isNull();
    }
  }

  /** Values as their sources print them; the source id and place stand in the row. */
  @ParameterizedTest(name = "{0} {1} {2} = {3} ({4})")
  @CsvSource({
    "apple, bramley-s-seedling, ploidy, 3, niab-apple-pollinators",
    "apple, honeycrisp, min-winter-temperature, -40, uvm-cold-fruit",
    "sweet-cherry, burlat, s-alleles, S3S9, schuster-2020-cherry-s",
    "sweet-cherry, chelan, harvest-offset, -14, usu-boxelder-cherry",
    "sweet-cherry, vista, harvest-day, 189, ontario-02-037-cherry",
    "apple, cameo, harvest-day, 274..304, usu-intermountain-apple",
    "apple, lodi, harvest-offset, -56, nc-hil-302",
    "asian-pear, shinsui, harvest-season, very-early, nsw-dpi-nashi",
    "european-pear, kieffer, harvest-offset, 35..42, psu-home-pears"
  })
  void aVarietysValueIsThePrintedOne(
      String crop, String variety, String trait, String value, String source) {
    assertThat(values(new Subject.OfVariety(Crop.of(crop), variety), trait, source))
        .contains(value);
  }

  @ParameterizedTest(name = "{0} {1} {2} = {3} ({4})")
  @CsvSource({
    "apple, m-9, fire-blight-trees-dead, 36..100, norelli-2003-fire-blight",
    "apple, g-11, fire-blight-trees-dead, 25, norelli-2003-fire-blight",
    "apple, g-11, fire-blight, moderately-resistant, norelli-2003-fire-blight",
    "apple, b-9, fire-blight-shoot-blighted, 88, norelli-2002-acta590",
    "apple, mm-106, crown-rot-girdling, 89.33, iran-eleven-crown-rot",
    "apple, g-935, root-lt50, -19..-16, moran-2011-cold",
    "sweet-cherry, krymsk-5, latent-virus, very-susceptible, pnwhb-pnrsv",
    "european-pear, ohxf-97, yield-at-age, 2.7, gfg-high-density-pears-weippert",
    "quince, not-stated, lifespan, 30..40, agrolib-quince"
  })
  void aStocksValueIsThePrintedOne(
      String crop, String stock, String trait, String value, String source) {
    assertThat(values(new Subject.StockIn(Crop.of(crop), stock), trait, source)).contains(value);
  }

  /** As a review holds it: so that an export, accepted elsewhere, is the same there. */
  @Test
  void aStockBelongsToTheCropsInWhichItIsRated() {
    for (TraitRecord r : EVIDENCE.records()) {
      if (r.subject() instanceof Subject.StockIn s)
        assertThat(EVIDENCE.plants().stock(s.stock()).orElseThrow().crops())
            .as(r.toString())
            .contains(s.crop());
    }
  }

  private static List<String> values(Subject subject, String trait, String source) {
    return EVIDENCE.records().stream()
        .filter(
            r ->
                r.subject().equals(subject) && r.trait().equals(trait) && r.source().equals(source))
        .map(r -> Canonical.value(r.value()))
        .toList();
  }

  /**
   * "Plum" means both plums; a class of stocks speaks for its members unless the file says
   * something of the member itself.
   */
  @Test
  void plumMeansBothAndAClassSpeaksForItsMembers() {
    assertThat(verdicts(Crop.EUROPEAN_PLUM, "myrobalan-29c")).contains("compatible");
    assertThat(verdicts(Crop.JAPANESE_PLUM, "myrobalan-29c")).contains("compatible");
    assertThat(EVIDENCE.records())
        .anyMatch(
            r ->
                r.subject()
                        .equals(
                            new Subject.Pairing(
                                Crop.EUROPEAN_PEAR,
                                "quince-a",
                                "bosc",
                                Subject.Pairing.Reach.NAMED))
                    && r.note().contains("said of the class quince"));
  }

  private static List<String> verdicts(Crop crop, String stock) {
    return EVIDENCE.records().stream()
        .filter(
            r ->
                r.subject() instanceof Subject.Pairing p
                    && p.crop() == crop
                    && p.stock().equals(stock))
        .map(r -> Canonical.value(r.value()))
        .toList();
  }
}
