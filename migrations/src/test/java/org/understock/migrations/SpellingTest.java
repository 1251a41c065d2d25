package org.understock.migrations;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashMap;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.understock.plant.Crop;
import org.understock.plant.Names;
import org.understock.plant.Plants;
import org.understock.plant.Stock;
import org.understock.plant.Variety;

/**
 * Usual spellings lead to the plant that is meant. Spellings are common practice, no source, unless
 * the names files say otherwise.
 */
class SpellingTest {
  private static final Plants PLANTS = StarterEvidence.read().evidence().plants();

  @ParameterizedTest(name = "{0} is {1}")
  @CsvSource({
    "MM 106, mm-106",
    "mm106, mm-106",
    "MM.106, mm-106",
    "Malling-Merton 106, mm-106",
    "EMLA 7, m-7-emla",
    "M7, m-7",
    "M.7A, m-7a",
    "M.7a, m-7a",
    "OHxF87, ohxf-87",
    "OHxF 87, ohxf-87",
    "OH x F 87, ohxf-87",
    "OHF 87, ohxf-87",
    "Farold 87, ohxf-87",
    "M9 T337, m-9-t337",
    "NAKB T337, m-9-t337",
    "M.9 NAKBT337, m-9-t337",
    "M.9 NAKB T337, m-9-t337",
    "Gisela 5, gi-5",
    "GiSelA 5, gi-5",
    "Gi 148/2, gi-5",
    "B9, b-9",
    "Bud 9, b-9",
    "Bud. 9, b-9",
    "Budagovsky 118, b-118",
    "G41, g-41",
    "Geneva 41, g-41",
    "CG.3041, g-41",
    "CG.4214, g-214",
    "G.969, g-969",
    "St Julien A, st-julien-a",
    "St. Julien A, st-julien-a",
    "Saint Julien A, st-julien-a",
    "Krymsk 5, krymsk-5",
    "VSL-2, krymsk-5",
    "Colt, colt",
    "Quince A, quince-a",
    "EMA, quince-a",
    "BA29, quince-ba29",
    "Quince BA 29, quince-ba29",
    "GF677, gf-677",
    "Myro 29C, myrobalan-29c",
    "Marianna 2624, marianna-2624",
    "Maxma14, maxma-14",
    "seedling, seedling",
    "Apple seedling, seedling",
    "P22, p-22",
    "Ottawa 3, ottawa-3",
    "O3, ottawa-3",
    "Antonovka, antonovka-313",
    "Controller 6, hbok-27",
    "Empyrean 2, penta",
    "Pajam 2, m-9-pajam-2",
    "RN29, m-9-nic29",
    "Pyrus betulifolia, pyrus-betulifolia-seedling"
  })
  void aStock(String spelling, String id) {
    assertThat(PLANTS.resolveStock(spelling).map(Stock::id)).hasValue(id);
    assertThat(PLANTS.findStocks(spelling).get(0).id()).isEqualTo(id);
  }

  @ParameterizedTest(name = "{1} is {2}")
  @CsvSource({
    "apple, Fuji, fuji",
    "apple, cripps pink, cripps-pink",
    "apple, Pink Lady, cripps-pink",
    "apple, Bramley's Seedling, bramley-s-seedling",
    "apple, Bramley, bramley-s-seedling",
    "apple, Cox’s Orange Pippin, cox-s-orange-pippin",
    "apple, Gala, gala",
    "peach, Gala, gala-peach",
    "apple, Red Delicious, delicious",
    "european-pear, Williams, bartlett",
    "european-pear, D'Anjou, anjou",
    "asian-pear, 20th Century, nijisseiki",
    "sweet-cherry, Büttners Rote Knorpelkirsche, buttners-rote-knorpelkirsche",
    "sweet-cherry, Buttners Rote Knorpelkirsche, buttners-rote-knorpelkirsche",
    "sweet-cherry, Brooks, brooks",
    "european-plum, Brooks, brooks-european-plum",
    "japanese-plum, Blackamber, black-amber"
  })
  void aVariety(String crop, String spelling, String id) {
    assertThat(PLANTS.resolveVariety(Crop.of(crop), spelling).map(Variety::id)).hasValue(id);
  }

  /** Not the same stock, whatever it looks like (names file: Gi 195/2 and Gi.195/20 differ). */
  @Test
  void likeNamesOfDifferentStocksStayApart() {
    assertThat(PLANTS.resolveStock("Gi 195/2").map(Stock::id)).hasValue("gi-12");
    assertThat(PLANTS.resolveStock("Gi 195/20").map(Stock::id)).hasValue("gi-195-20");
    assertThat(PLANTS.resolveStock("P.2").map(Stock::id)).hasValue("p-2");
    assertThat(PLANTS.resolveStock("P.22").map(Stock::id)).hasValue("p-22");
  }

  @Test
  void noSpellingMeansTwoStocksOrTwoVarietiesOfACrop() {
    Map<String, String> owners = new HashMap<>();
    for (Stock stock : PLANTS.stocks()) {
      for (String name : stock.synonyms()) claim(owners, name, stock.id());
      claim(owners, stock.name(), stock.id());
      claim(owners, stock.id(), stock.id());
    }
    owners.clear();
    for (Variety variety : PLANTS.varieties()) {
      for (String name : variety.synonyms())
        claim(owners, variety.crop() + " " + name, variety.id());
      claim(owners, variety.crop() + " " + variety.name(), variety.id());
    }
  }

  private static void claim(Map<String, String> owners, String name, String id) {
    String before = owners.putIfAbsent(Names.key(name), id);
    assertThat(before == null || before.equals(id))
        .as("%s means %s and %s", name, before, id)
        .isTrue();
  }
}
