package org.understock.service.card;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
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
import org.understock.wording.Language;
import org.understock.wording.Words;
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
    Longest longest = new Longest();
    int n = 0;
    for (Stock stock : adviser.book().plants().stocks()) {
      if (stock.kind() == Stock.Kind.CLASS || !stock.crops().contains(crop)) continue;
      for (Variety variety : adviser.book().plants().varieties()) {
        if (variety.crop() != crop) continue;
        Units units = n % 2 == 0 ? Units.METRIC : Units.US_CUSTOMARY;
        Language language = Language.values()[n % 3];
        Words words = Words.in(language);
        CardResponse card =
            Cards.of(
                adviser.portrait(crop, stock.id(), variety.id(), units, language),
                1,
                adviser.pollination(crop),
                words);
        inOrder(card);
        Said said = new Said(card, units, words);
        longest.add(said);
        if (n++ % SAMPLE != 0) continue;
        assertThat(json.readTree(json.writeValueAsString(card)).path("title").asString())
            .isEqualTo(card.title());
        Paper paper = n % 2 == 0 ? Paper.A4 : Paper.LETTER;
        for (String text :
            List.of(
                CardPage.of(said, paper).html(),
                TagSheet.of(said, paper, 3).html(),
                CardPicture.of(said)))
          xml.parse(new InputSource(new StringReader(text.replaceFirst("^<!DOCTYPE html>", ""))));
      }
    }
    assertThat(n).as("pairings of %s", crop).isGreaterThan(20);
    longest.write(crop);
  }

  /**
   * The longest cards of a crop, in each language, to be printed and looked at: written as pages
   * into the folder that is named by {@code -Dcards.longest}.
   */
  private static final class Longest {
    private static final int EACH = 3;
    private final Map<Language, List<Said>> cards = new EnumMap<>(Language.class);

    void add(Said said) {
      if (System.getProperty("cards.longest") == null) return;
      List<Said> held = cards.computeIfAbsent(said.words().language(), l -> new ArrayList<>());
      held.add(said);
      held.sort(Comparator.comparingInt(one -> -length(one)));
      if (held.size() > EACH) held.remove(EACH);
    }

    /** Of what differs much from card to card, without setting the page. */
    private static int length(Said said) {
      return said.bloom().length()
          + said.harvest().length()
          + said.chill().length()
          + String.join(" ", said.doubts()).length()
          + said.ratings(said.card().bears(), "stock", 7).length()
          + said.ratings(said.card().suffersFrom(), "stock", 7).length()
          + (said.warns() ? 2 * said.card().union().text().length() : 0)
          + said.card().cautions().stream().limit(4).mapToInt(c -> c.text().length()).sum();
    }

    void write(Crop crop) throws IOException {
      for (List<Said> held : cards.values())
        for (Said said : held)
          for (Paper paper : Paper.values())
            Files.writeString(
                Path.of(
                    System.getProperty("cards.longest"),
                    String.join(
                            "_",
                            crop.id(),
                            said.words().language().tag(),
                            paper.css,
                            said.card().stock().id(),
                            said.card().variety().id())
                        + ".html"),
                CardPage.of(said, paper).html());
    }
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
