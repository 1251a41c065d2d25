package org.understock.service.card;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import javax.xml.parsers.DocumentBuilder;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.springframework.beans.factory.annotation.Autowired;
import org.understock.advice.Adviser;
import org.understock.advice.Units;
import org.understock.plant.Crop;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.service.RunningService;
import org.understock.service.store.Snapshots;
import org.xml.sax.InputSource;
import tools.jackson.databind.json.JsonMapper;

/**
 * Every pairing of the catalogue has a card whose figures are in order; a sample of them is written
 * in every form.
 */
class EveryCardTest extends RunningService {
  private static final int SAMPLE = 211;

  @Autowired private Snapshots snapshots;

  @TestFactory
  Stream<DynamicTest> cards() {
    return Stream.of(Crop.values())
        .map(crop -> DynamicTest.dynamicTest(crop.id(), () -> cardsOf(crop)));
  }

  private void cardsOf(Crop crop) throws Exception {
    Adviser adviser = snapshots.latest().adviser();
    JsonMapper json = JsonMapper.shared();
    DocumentBuilder xml = DocumentBuilderFactory.newDefaultInstance().newDocumentBuilder();
    int n = 0;
    for (Stock stock : adviser.book().plants().stocks()) {
      if (stock.kind() == Stock.Kind.CLASS || !stock.crops().contains(crop)) continue;
      for (Variety variety : adviser.book().plants().varieties()) {
        if (variety.crop() != crop) continue;
        Units units = n % 2 == 0 ? Units.METRIC : Units.US_CUSTOMARY;
        CardResponse card =
            Cards.of(
                adviser.portrait(crop, stock.id(), variety.id(), units),
                1,
                adviser.pollination(crop));
        inOrder(card);
        if (n++ % SAMPLE != 0) continue;
        assertThat(json.readTree(json.writeValueAsString(card)).path("title").asString())
            .isEqualTo(card.title());
        Paper paper = n % 2 == 0 ? Paper.A4 : Paper.LETTER;
        for (String text :
            List.of(
                CardPage.of(card, units, paper).html(),
                TagSheet.of(card, units, paper, 3).html(),
                CardPicture.of(card, units)))
          xml.parse(new InputSource(new StringReader(text.replaceFirst("^<!DOCTYPE html>", ""))));
      }
    }
    assertThat(n).as("pairings of %s", crop).isGreaterThan(20);
  }

  private static void inOrder(CardResponse card) {
    CardResponse.Tree tree = card.expectations();
    for (CardResponse.Range r :
        List.of(tree.heightM(), tree.spreadM(), tree.freeHeightM(), tree.matureYieldKgPerTree()))
      assertThat(r.low() > 0 && r.low() <= r.likely() && r.likely() <= r.high())
          .as("%s: %s", card.title(), r)
          .isTrue();
    List<CardResponse.Years> years =
        new ArrayList<>(
            List.of(tree.firstCropYear(), tree.fullCropYear(), tree.productiveLifeYears()));
    card.fruit().chill().forEach(chill -> years.add(chill.need()));
    for (CardResponse.Years y : years)
      assertThat(y.low() > 0 && y.low() <= y.likely() && y.likely() <= y.high())
          .as("%s: %s", card.title(), y)
          .isTrue();
    assertThat(tree.firstCropYear().likely() <= tree.fullCropYear().likely())
        .as("%s: first crop %s, full %s", card.title(), tree.firstCropYear(), tree.fullCropYear())
        .isTrue();
    assertThat(tree.heightM().likely() <= tree.freeHeightM().likely() + 0.051)
        .as("%s: kept %s, free %s", card.title(), tree.heightM(), tree.freeHeightM())
        .isTrue();
  }
}
