package org.understock.advice;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleFunction;
import org.understock.advice.Stakes.Quantity;
import org.understock.evidence.Estimate;
import org.understock.evidence.Subject;
import org.understock.pollination.PartnerNeed;
import org.understock.pollination.PollenNeed;

/** The uncertain things about a variety that enter the score of one question. */
final class VarietyQuantities {
  private final Judging judging;
  private final VarietyRow row;
  private final Subject subject;
  private final List<Quantity> quantities = new ArrayList<>();

  private VarietyQuantities(Judging judging, VarietyRow row) {
    this.judging = judging;
    this.row = row;
    subject = new Subject.OfVariety(judging.tables.crop, row.variety().id());
  }

  /**
   * @param pairing one that holds the variety: what else its tree's spread is made of is read off
   *     it
   */
  static List<Quantity> of(Judging judging, VarietyRow row, int pairing) {
    VarietyQuantities all = new VarietyQuantities(judging, row);
    all.diseases();
    all.cold();
    all.chill();
    all.vigour(pairing);
    all.pollination();
    return all.quantities;
  }

  private Judging.Part part(VarietyRow changed) {
    return new Judging.Part(judging.side.of(changed), changed.scores());
  }

  private void diseases() {
    if (active(Criteria.VARIETY_DISEASE) < 0) return;
    for (String trait : CropTables.VARIETY_DISEASES) {
      LevelDraws draws = row.levels().get(trait);
      if (draws == null || !judging.tables.varietyTraits.containsKey(trait)) continue;
      double[] merit = Satisfaction.of(draws.trait().levels(), Satisfaction.RESISTANCE);
      quantities.add(
          Quantity.ofLevels(
              trait,
              draws.shares(),
              merit,
              k -> part(row.with(Stakes.replaced(row.levels(), trait, k)))));
    }
  }

  private void cold() {
    double[] drawn = row.hardy().drawsC();
    double sd = Stakes.sd(drawn);
    Estimate limit = judging.tables.book.estimate(subject, Hardy.LIMIT).orElse(null);
    double knowable =
        limit instanceof Estimate.Interval interval
            ? interval.standardError()
            : Math.sqrt(Math.max(0, sd * sd - Hardy.ZONE_SD_C * Hardy.ZONE_SD_C));
    double share = Stakes.share(knowable, sd);
    if (share > 0)
      normal(
          Hardy.LIMIT, 0, score -> row.with(row.hardy().with(Stakes.given(drawn, share, score))));
  }

  private void chill() {
    if (active(Criteria.CHILL) < 0) return;
    boolean hours = new WinterDraws(judging.question.site()).inHours(row);
    String trait = hours ? "chill-hours" : "chill-portions";
    Chilling chilling = hours ? row.hours() : row.portions();
    double sd = Stakes.sd(chilling.draws());
    Estimate own = judging.tables.book.estimate(subject, trait).orElse(null);
    double knowable =
        own instanceof Estimate.Quantity quantity
            ? quantity.standardErrorLog()
            : Math.sqrt(Math.max(0, sd * sd - Chilling.LEAST_SD * Chilling.LEAST_SD));
    double share = Stakes.share(knowable, sd);
    if (share > 0) {
      normal(
          trait,
          0,
          score -> {
            Chilling known = chilling.with(Stakes.given(chilling.draws(), share, score));
            return hours ? row.with(known, row.portions()) : row.with(row.hours(), known);
          });
    }
  }

  /** Vigour enters through size alone; how it would move the match with the stock is left out. */
  private void vigour(int pairing) {
    double share =
        Stakes.share(
            row.growth().lengthFactor().sigma(),
            CropTables.VARIETY_SHARE * judging.expectations(pairing).freeHeightM().sigma());
    double[] drawn = row.scores().size();
    if (share > 0) {
      quantities.add(
          new Quantity(
              "vigor",
              null,
              -1,
              k ->
                  new Judging.Part(
                      judging.side.of(row),
                      row.scores()
                          .withSize(Stakes.given(drawn, share, PerfectInformation.NODES[k])))));
    }
  }

  /**
   * Where nothing tells whether a variety bears with its own pollen: it does, or it needs another.
   */
  private void pollination() {
    int criterion = active(Criteria.POLLINATION);
    PartnerNeed need = judging.tables.pollination.partnerNeed(row.variety().id());
    if (criterion < 0 || need.need() != PollenNeed.UNKNOWN) return;
    double[] weight = judging.weights.of(criterion);
    Panel own = judging.side.of(row);
    double chance = need.chanceNeeded();
    quantities.add(
        Quantity.ofLevels(
            "self-fertile",
            new double[] {1 - chance, chance},
            new double[] {1, 0},
            k ->
                new Judging.Part(
                    own.moved(weight, k == 0 ? 0.5 * chance : -0.5 * (1 - chance)), row.scores())));
  }

  private int active(Criterion criterion) {
    for (int c = 0; c < judging.active.size(); c++)
      if (judging.active.get(c).criterion() == criterion) return c;
    return -1;
  }

  private void normal(String trait, int best, DoubleFunction<VarietyRow> known) {
    quantities.add(
        new Quantity(trait, null, best, k -> part(known.apply(PerfectInformation.NODES[k]))));
  }
}
