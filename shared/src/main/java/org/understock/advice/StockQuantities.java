package org.understock.advice;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.DoubleFunction;
import java.util.function.Function;
import org.understock.advice.Stakes.Quantity;
import org.understock.climate.Hardiness;
import org.understock.evidence.Estimate;
import org.understock.evidence.Subject;
import org.understock.growth.Expectations;
import org.understock.growth.StockGrowth;
import org.understock.growth.SupportNeed;

/** The uncertain things about a stock that enter the score of one question. */
final class StockQuantities {
  private static final int LAST = PerfectInformation.NODES.length - 1;

  private final Judging judging;
  private final StockRow row;
  private final List<Quantity> quantities = new ArrayList<>();

  private StockQuantities(Judging judging, StockRow row) {
    this.judging = judging;
    this.row = row;
  }

  /**
   * @param pairing one that holds the stock: what else its tree's spread is made of is read off it
   */
  static List<Quantity> of(Judging judging, StockRow row, int pairing) {
    StockQuantities all = new StockQuantities(judging, row);
    all.levels();
    all.cold();
    all.growth(pairing);
    all.support();
    return all.quantities;
  }

  private Judging.Part part(StockRow changed) {
    return new Judging.Part(judging.side.of(changed), changed.scores());
  }

  private void levels() {
    for (Active active : judging.active) {
      if (active.rated() == null) continue;
      for (Rated.Part part : active.rated().parts()) level(part.trait(), active.rated());
    }
  }

  private void level(String trait, Rated rated) {
    LevelDraws draws = row.levels().get(trait);
    if (draws == null || !judging.tables.stockTraits.containsKey(trait)) return;
    double[] merit = Satisfaction.of(draws.trait().levels(), rated.scale());
    quantities.add(
        Quantity.ofLevels(
            trait,
            draws.shares(),
            merit,
            k -> part(row.with(Stakes.replaced(row.levels(), trait, k)))));
  }

  /**
   * A published temperature is uncertain by its standard error; without one, the word for hardiness
   * is.
   */
  private void cold() {
    double[] drawn = row.hardy().drawsC();
    Estimate limit =
        judging
            .tables
            .book
            .estimate(new Subject.StockIn(judging.tables.crop, row.stock().id()), Hardy.LIMIT)
            .orElse(null);
    if (limit instanceof Estimate.Interval interval) {
      double share = Stakes.share(interval.standardError(), Stakes.sd(drawn));
      if (share > 0)
        normal(
            Hardy.LIMIT, 0, score -> row.with(row.hardy().with(Stakes.given(drawn, share, score))));
      return;
    }
    LevelDraws word = row.levels().get(Hardy.WORD);
    if (word == null) return;
    double[] limits = word.trait().levels().stream().mapToDouble(Hardiness::limitOf).toArray();
    quantities.add(
        Quantity.ofLevels(
            Hardy.WORD,
            word.shares(),
            Arrays.stream(limits).map(x -> -x).toArray(),
            k -> {
              double[] known = drawn.clone();
              for (int d = 0; d < known.length; d++)
                known[d] += limits[k] - limits[word.draws()[d]];
              return part(row.with(row.hardy().with(known)));
            }));
  }

  private void growth(int pairing) {
    Expectations tree = judging.expectations(pairing);
    StockGrowth growth = row.growth();
    Scores scores = row.scores();
    double others =
        Math.sqrt(
            Math.max(
                0,
                square(tree.freeHeightM().sigma()) - square(growth.freeHeightM().value().sigma())));
    double height = Math.hypot(growth.usualHeightM().value().sigma(), others);
    growth(
        "size-percent-of-standard",
        growth.usualHeightM().unknownSd(),
        height,
        -1,
        scores.size(),
        scores::withSize);
    growth(
        "years-to-first-crop",
        growth.firstCropYear().unknownSd(),
        tree.firstCropYear().sigma(),
        0,
        scores.time(),
        scores::withTime);
    growth(
        "mature-yield",
        growth.matureYieldKg().unknownSd(),
        tree.matureYieldKg().sigma(),
        LAST,
        scores.yield(),
        scores::withYield);
    growth(
        "lifespan",
        growth.lifeYears().unknownSd(),
        tree.lifeYears().sigma(),
        LAST,
        scores.life(),
        scores::withLife);
  }

  private void growth(
      String trait,
      double unknownSd,
      double treeSd,
      int best,
      double[] drawn,
      Function<double[], Scores> with) {
    double share = Stakes.share(unknownSd, CropTables.STOCK_SHARE * treeSd);
    if (share > 0)
      normal(trait, best, score -> row.with(with.apply(Stakes.given(drawn, share, score))));
  }

  private void normal(String trait, int best, DoubleFunction<StockRow> known) {
    quantities.add(
        new Quantity(trait, null, best, k -> part(known.apply(PerfectInformation.NODES[k]))));
  }

  private void support() {
    SupportNeed need = row.growth().support().need();
    double[] chances = {need.none(), need.untilEstablished(), need.permanent()};
    quantities.add(
        Quantity.ofLevels(
            "support-need",
            chances,
            new double[] {2, 1, 0},
            k ->
                part(
                    row.with(
                        row.growth()
                            .with(
                                new SupportNeed(
                                    k == 0 ? 1 : 0, k == 1 ? 1 : 0, k == 2 ? 1 : 0))))));
  }

  private static double square(double x) {
    return x * x;
  }
}
