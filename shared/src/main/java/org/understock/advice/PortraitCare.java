package org.understock.advice;

import java.util.ArrayList;
import java.util.List;
import org.understock.growth.Expectations;
import org.understock.growth.Part;
import org.understock.plant.Stock;
import org.understock.wording.Words;

/** What a tree asks of whoever keeps it, for a portrait. */
final class PortraitCare {
  /** A stock of this size or less, as a share of standard, roots too little to go without water. */
  private static final double SMALL_ROOT = 0.4;

  private final Units units;
  private final Words words;
  private final Pairing pairing;
  private final StockRow stock;

  PortraitCare(Judging judging, Pairing pairing, StockRow stock) {
    this.pairing = pairing;
    this.stock = stock;
    units = judging.question.units();
    words = Words.in(judging.question.language());
  }

  List<Portrait.Care> all() {
    List<Portrait.Care> care = new ArrayList<>();
    boolean grafted = stock.stock().kind() != Stock.Kind.OWN_ROOTS;
    care.add(
        new Portrait.Care(
            Portrait.Care.Topic.PLANTING,
            words.say(grafted ? "caution.graft-union-above-soil" : "portrait.care.own-roots"),
            List.of()));
    care.add(support());
    care.add(water());
    Expectations tree = pairing.expectations();
    care.add(
        new Portrait.Care(
            Portrait.Care.Topic.PRUNING,
            words.say(
                "portrait.care.pruning",
                "height",
                units.lengths(words, tree.freeHeightM().p10(), tree.freeHeightM().p90())),
            stock.growth().freeHeightM().records()));
    LevelDraws suckers = stock.levels().get("suckering");
    if (grafted
        && suckers != null
        && suckers.known()
        && Cautions.mean(suckers, Satisfaction.FEWNESS) < PortraitRatings.BEARS)
      care.add(
          new Portrait.Care(
              Portrait.Care.Topic.SUCKERS,
              words.say("portrait.care.suckers"),
              suckers.estimate().orElseThrow().support().records()));
    return care;
  }

  private Portrait.Care support() {
    List<String> records = supportKnown() ? stock.growth().support().records() : List.of();
    return new Portrait.Care(
        Portrait.Care.Topic.SUPPORT,
        words.say(
            "portrait.care.support",
            "need",
            supportKnown() ? pairing.expectations().support().likely().id() : "unknown",
            "taken",
            supportKnown() && records.isEmpty()),
        records);
  }

  /** Support is told from the size where it is not on record; not where the size is not either. */
  boolean supportKnown() {
    return !stock.growth().support().records().isEmpty()
        || stock.growth().size().basis() != Part.Basis.CROP;
  }

  private Portrait.Care water() {
    LevelDraws drought = stock.levels().get("drought");
    boolean dry =
        drought != null
            && drought.known()
            && Cautions.mean(drought, Satisfaction.SUITABILITY) < PortraitRatings.SUFFERS;
    boolean small = stock.growth().size().value().median() < SMALL_ROOT;
    List<String> records =
        dry && drought != null
            ? drought.estimate().orElseThrow().support().records()
            : small ? stock.growth().size().records() : List.of();
    return new Portrait.Care(
        Portrait.Care.Topic.WATER,
        words.say("portrait.care.water", "why", dry ? "drought" : small ? "small" : "young"),
        records);
  }
}
