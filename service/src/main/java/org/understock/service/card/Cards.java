package org.understock.service.card;

import java.util.List;
import org.understock.advice.Adviser;
import org.understock.advice.Portrait;
import org.understock.advice.Portrait.Rating.Stand;
import org.understock.climate.ChillNeed;
import org.understock.growth.Expectations;
import org.understock.growth.LogNormal;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.pollination.Pollination;
import org.understock.service.reading.Cited;
import org.understock.service.reading.Rounding;
import org.understock.wording.Words;

/** Writes a portrait down as a card, rounded to what can be told apart in an orchard. */
final class Cards {
  private Cards() {}

  static CardResponse of(Portrait portrait, long revision, Pollination pollination, Words words) {
    return new CardResponse(
        revision,
        Adviser.ENGINE_VERSION,
        portrait.pairing().crop().id(),
        named(portrait.pairing().stock()),
        named(portrait.pairing().variety()),
        words.say(
            "portrait.title",
            "variety",
            portrait.pairing().variety().name(),
            "stock",
            portrait.pairing().stock().name()),
        new CardResponse.Union(
            portrait.union().state().id(),
            portrait.union().text(),
            portrait.union().interstem(),
            portrait.union().records()),
        tree(portrait),
        portrait.basis().stream()
            .map(
                b ->
                    new CardResponse.Basis(
                        b.figure(),
                        b.basis().name().toLowerCase(java.util.Locale.ROOT),
                        b.grade().name(),
                        b.text(),
                        b.records()))
            .toList(),
        fruit(portrait, words),
        pollen(portrait, pollination, words),
        ratings(portrait, Stand.BEARS),
        ratings(portrait, Stand.MIDDLING),
        ratings(portrait, Stand.SUFFERS),
        portrait.unrated(),
        portrait.cold().stream()
            .map(c -> new CardResponse.Cold(c.plant().id(), c.lowestC(), c.text(), c.records()))
            .toList(),
        portrait.care().stream()
            .map(c -> new CardResponse.Care(c.topic().id(), c.text(), c.records()))
            .toList(),
        portrait.cautions().stream()
            .map(c -> new CardResponse.Caution(c.code(), c.text(), c.records()))
            .toList(),
        portrait.notices().stream().map(n -> new CardResponse.Notice(n.code(), n.text())).toList(),
        portrait.sources().stream()
            .map(s -> new CardResponse.CitedSource(s.id(), Cited.of(s, words)))
            .toList());
  }

  private static CardResponse.Tree tree(Portrait portrait) {
    Expectations e = portrait.pairing().expectations();
    return new CardResponse.Tree(
        metres(e.heightM()),
        metres(e.spreadM()),
        metres(e.freeHeightM()),
        years(e.firstCropYear()),
        years(e.fullCropYear()),
        years(e.lifeYears()),
        new CardResponse.Range(
            Rounding.kg(e.matureYieldKg().p10()),
            Rounding.kg(e.matureYieldKg().median()),
            Rounding.kg(e.matureYieldKg().p90())),
        Rounding.tenths(e.inRowM()),
        Rounding.tenths(e.rowM()),
        portrait.sizeKnown(),
        portrait.support() == null ? null : portrait.support().id());
  }

  private static CardResponse.Fruit fruit(Portrait portrait, Words words) {
    Portrait.Harvest harvest = portrait.harvest();
    return new CardResponse.Fruit(
        harvest == null ? null : new CardResponse.Harvest(harvest.text(), harvest.records()),
        portrait.chill().stream().map(need -> chill(need, words)).toList());
  }

  private static CardResponse.Chill chill(ChillNeed need, Words words) {
    return new CardResponse.Chill(
        need.measure().trait(),
        new CardResponse.Years(
            Math.round(need.low()), Math.round(need.likely()), Math.round(need.high())),
        need.measure().label().in(words),
        need.requirement().support().records());
  }

  private static CardResponse.Pollen pollen(
      Portrait portrait, Pollination pollination, Words words) {
    Double day = portrait.bloom().day();
    return new CardResponse.Pollen(
        portrait.pollen().need().id(),
        portrait.pollen().partnerWanted(),
        portrait.pollen().text().in(words),
        portrait.bloom().group(),
        day == null ? null : Double.valueOf(Rounding.tenths(day)),
        day == null ? null : pollination.bloomReference().map(Cards::named).orElse(null),
        portrait.partners().stream()
            .map(
                p ->
                    new CardResponse.Partner(
                        named(p.variety()),
                        p.pair().verdict().id(),
                        p.pair().overlap().id(),
                        p.text().in(words),
                        p.pair().records()))
            .toList());
  }

  private static List<CardResponse.Rating> ratings(Portrait portrait, Stand stand) {
    return portrait.ratings().stream()
        .filter(r -> r.stand() == stand)
        .map(
            r ->
                new CardResponse.Rating(
                    r.plant().id(),
                    r.trait(),
                    r.topic(),
                    r.kind().id(),
                    r.word(),
                    r.sources(),
                    r.grade().name(),
                    r.text(),
                    r.records()))
        .toList();
  }

  private static CardResponse.Named named(Stock stock) {
    return new CardResponse.Named(stock.id(), stock.name());
  }

  private static CardResponse.Named named(Variety variety) {
    return new CardResponse.Named(variety.id(), variety.name());
  }

  private static CardResponse.Range metres(LogNormal m) {
    return new CardResponse.Range(
        Rounding.tenths(m.p10()), Rounding.tenths(m.median()), Rounding.tenths(m.p90()));
  }

  private static CardResponse.Years years(LogNormal y) {
    return new CardResponse.Years(
        Rounding.years(y.p10()), Rounding.years(y.median()), Rounding.years(y.p90()));
  }
}
