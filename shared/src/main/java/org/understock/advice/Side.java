package org.understock.advice;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.understock.growth.LogNormal;
import org.understock.growth.SupportNeed;
import org.understock.site.Goal;
import org.understock.site.Site;

/** Makes the {@link Panel} of a stock or a variety for one request. */
final class Side {
  /**
   * Degrees by which a night may pass a plant's limit before nothing is left of it, and the margin
   * that makes one easy (from memory).
   */
  private static final double COLD_KILLS_C = 6;

  private static final double COLD_EASY_C = 6;

  /**
   * Share of the score that a trouble certain to be there takes from the worst-rated stock: early
   * crops do not make good for a root that drowns. Nothing is ruled out by a rating alone, because
   * ratings are loose. The share is a judgement, checked against the published situations among the
   * tests.
   */
  private static final double TROUBLE_TAKES = 0.4;

  /** A usual winter of the fruit belt, where nothing tells of the site's. */
  private static final double[] MILD_NIGHTS_C = constant(-18);

  private final CropTables tables;
  private final Site site;
  private final Goal goal;
  private final List<Active> active;
  private final Weights weights;
  private final WinterDraws winters;
  private final @Nullable BloomFrosts frosts;
  private final double @Nullable [] nightsC;

  Side(
      CropTables tables,
      Site site,
      Goal goal,
      List<Active> active,
      Weights weights,
      @Nullable BloomFrosts frosts) {
    this.frosts = frosts;
    this.tables = tables;
    this.site = site;
    this.goal = goal;
    this.active = active;
    this.weights = weights;
    winters = new WinterDraws(site);
    nightsC = winters.nightsC();
  }

  Panel of(StockRow row) {
    Panel panel = Panel.empty(active.size());
    for (int c = 0; c < active.size(); c++) {
      Criterion criterion = active.get(c).criterion();
      Rated rated = active.get(c).rated();
      if (rated != null) {
        double[] satisfaction = row.merits().of(rated, tables.stockTraits.keySet());
        panel.add(c, weights.of(c), satisfaction, 1);
        if (criterion.limit() && active.get(c).bearing().told())
          panel.restrict(
              criterion, satisfaction, TROUBLE_TAKES * active.get(c).bearing().relevance());
      } else if (criterion == Criteria.SUPPORT) panel.add(c, weights.of(c), support(row), 1);
      else if (criterion == Criteria.RESERVE) panel.add(c, weights.of(c), reserve(row), 1);
      else if (criterion == Criteria.COLD)
        panel.add(c, weights.of(c), coldEase(row.hardy().drawsC()), 0.5);
      else if (criterion == Criteria.TRACK) panel.add(c, weights.of(c), row.track().met(), 0.5);
    }
    if (nightsC != null) panel.restrict(Criteria.COLD, coldLimit(row.hardy().drawsC()));
    return panel;
  }

  Panel of(VarietyRow row) {
    Panel panel = Panel.empty(active.size());
    for (int c = 0; c < active.size(); c++) {
      Criterion criterion = active.get(c).criterion();
      if (criterion == Criteria.COLD)
        panel.add(c, weights.of(c), coldEase(row.hardy().drawsC()), 0.5);
      else if (criterion == Criteria.CHILL)
        panel.add(c, weights.of(c), chill(row, Ramp.between(0.75, 1.15)), 1);
      else if (criterion == Criteria.FROST)
        panel.add(c, weights.of(c), Objects.requireNonNull(frosts).of(row).satisfaction(), 1);
      else if (criterion == Criteria.POLLINATION) panel.add(c, weights.of(c), row.pollenEase(), 1);
      else if (criterion == Criteria.VARIETY_DISEASE)
        panel.add(c, weights.of(c), health(row.levels()), 1);
      else if (criterion == Criteria.TRACK) panel.add(c, weights.of(c), row.track().met(), 0.5);
    }
    if (nightsC != null) panel.restrict(Criteria.COLD, coldLimit(row.hardy().drawsC()));
    if (winters.chillKnown()) panel.restrict(Criteria.CHILL, chill(row, Ramp.between(0.6, 0.95)));
    if (frosts != null)
      panel.restrict(Criteria.FROST, frosts.of(row).satisfaction(), TROUBLE_TAKES);
    if (site.frostFreeDays() != null && row.ripening() != null)
      panel.restrict(Criteria.SEASON, row.ripening().factor(site.frostFreeDays()));
    return panel;
  }

  /**
   * Mean over the crop's diseases, those present on the site counting ten times those that are not.
   */
  private double[] health(Map<String, LevelDraws> levels) {
    double[] satisfaction = new double[Draws.COUNT];
    double sum = 0;
    for (String trait : CropTables.VARIETY_DISEASES) {
      LevelDraws draws = levels.get(trait);
      if (draws == null || !tables.varietyTraits.containsKey(trait)) continue;
      double share = diseaseShare(trait, site);
      double[] values = Satisfaction.of(draws.trait().levels(), Satisfaction.RESISTANCE);
      for (int d = 0; d < Draws.COUNT; d++) satisfaction[d] += share * values[draws.draws()[d]];
      sum += share;
    }
    for (int d = 0; d < Draws.COUNT; d++) satisfaction[d] /= sum;
    return satisfaction;
  }

  /** Rusts count where they are listed; other diseases of the crop count a little everywhere. */
  static double diseaseShare(String trait, Site site) {
    if (site.pressures().contains(trait)) return 1;
    return trait.endsWith("-rust") ? 0.03 : 0.1;
  }

  /**
   * Need for support against what will be put up: a permanent need unmet is the worst case, no need
   * the best.
   */
  private double support(StockRow row) {
    SupportNeed need = row.growth().support().need();
    Goal.Support given = goal.support() == null ? Goal.Support.STAKE : goal.support();
    double unmetForLife =
        switch (given) {
          case NONE -> 0;
          case STAKE -> 0.65;
          case TRELLIS -> 1;
        };
    double unmetAtFirst = given == Goal.Support.NONE ? 0.5 : 0.9;
    return need.permanent() * unmetForLife + need.untilEstablished() * unmetAtFirst + need.none();
  }

  /**
   * From a quarter of standard size (no reserve) to six tenths (plenty): very dwarfing stocks
   * forgive least (common practice, no source).
   */
  private double[] reserve(StockRow row) {
    Ramp ramp = Ramp.between(0.22, 0.65);
    LogNormal size = row.growth().size().value();
    double[] satisfaction = new double[Draws.COUNT];
    for (int d = 0; d < Draws.COUNT; d++)
      satisfaction[d] =
          ramp.of(size.mu() + size.sigma() * row.scores().size()[d] / CropTables.STOCK_SHARE);
    return satisfaction;
  }

  private double[] coldEase(double[] hardyC) {
    double[] nights = nightsC == null ? MILD_NIGHTS_C : nightsC;
    double[] satisfaction = new double[Draws.COUNT];
    for (int d = 0; d < Draws.COUNT; d++)
      satisfaction[d] = clamp((nights[d] - hardyC[d] + 2) / (COLD_EASY_C + 2));
    return satisfaction;
  }

  private double[] coldLimit(double[] hardyC) {
    double[] nights = Objects.requireNonNull(nightsC);
    double[] factor = new double[Draws.COUNT];
    for (int d = 0; d < Draws.COUNT; d++)
      factor[d] = clamp((nights[d] - hardyC[d] + COLD_KILLS_C) / COLD_KILLS_C);
    return factor;
  }

  private double[] chill(VarietyRow row, Ramp ramp) {
    if (!winters.chillKnown()) return PairingJudgement.ONES;
    double[] requirement = winters.need(row).draws();
    double[] log = winters.logChill(row);
    double[] factor = new double[Draws.COUNT];
    for (int d = 0; d < Draws.COUNT; d++) factor[d] = ramp.of(log[d] - requirement[d]);
    return factor;
  }

  static double[] constant(double value) {
    double[] x = new double[Draws.COUNT];
    java.util.Arrays.fill(x, value);
    return x;
  }

  private static double clamp(double x) {
    return Math.max(0, Math.min(1, x));
  }

  /** Panels of the subjects that take part, by index; others stay null. */
  static <R> List<@Nullable Panel> panels(
      List<R> rows, java.util.BitSet used, java.util.function.Function<R, Panel> make) {
    List<@Nullable Panel> panels = new ArrayList<>();
    for (int i = 0; i < rows.size(); i++) panels.add(used.get(i) ? make.apply(rows.get(i)) : null);
    return panels;
  }
}
