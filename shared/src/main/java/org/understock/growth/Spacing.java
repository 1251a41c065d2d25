package org.understock.growth;

import org.understock.site.Goal;

/**
 * Puts a stock, a variety and a place together: height towards the goal, spacing, crop within the
 * room that a tree gets.
 */
final class Spacing {
  /**
   * Height of the trees over the width of the row, at most, for light at the foot: 0.9 in worked
   * systems, 0.9 to 1.1 as a guide (wisc-trv-2023).
   */
  static final double HEIGHT_TO_ROW = 1.1;

  /**
   * Most that a square metre of orchard bears: 70.6 t/ha, the full crop that strong supports are
   * designed for (cornell-strong-support). Published crops of single trees on their published
   * spacing run above it on vigorous stocks; a mean crop of an orchard does not.
   */
  static final double MOST_KG_PER_M2 = 7.06;

  /**
   * Crop follows the ground that the crown covers at a falling rate
   * (barden-marini-2001-growth-measures); the exponent on length is a judgement.
   */
  private static final double CROP_EXPONENT = 1.5;

  /** A stronger variety comes into crop later; common practice, no source for the size of it. */
  private static final double DELAY_EXPONENT = 0.5;

  /*
   * A wall of narrow trees on wires: 0.9-1.2 m in the row and rows of 3.4-3.7 m for tall spindles on dwarfing stocks (nmsu-h307-yao,
   * gfg-horticulturist-tall-spindle), about half the free-standing distance of M.9 (2.1-2.4 m: home-fruit-guidelines-table2, psu-fphg-table4-3).
   * Trees whose crowns would grow wider than WALL_SPREAD_M are not planted so: 1 m in the row on the vigorous M.793 failed
   * (sa-rootstock-trends-2023).
   */
  private static final double WALL_SHARE = 0.45;
  private static final double WALL_IN_ROW_M = 0.9;
  private static final double WALL_ROW_M = 3.4;
  private static final double WALL_SPREAD_M = 3.7;

  private static final double Z90 = 1.2815515655446004;

  private final double alleyM;

  Spacing(double alleyM) {
    this.alleyM = alleyM;
  }

  boolean sameAs(Spacing other) {
    return Double.compare(alleyM, other.alleyM) == 0;
  }

  Expectations expect(StockGrowth stock, VarietyGrowth variety, SiteGrowth site, Goal goal) {
    LogNormal length = variety.lengthFactor().times(site.lengthFactor());
    LogNormal free = stock.freeHeightM().value().times(length);
    LogNormal usual = stock.usualHeightM().value().times(length);
    LogNormal lowest = stock.lowestHeightM().value().times(length);
    LogNormal height =
        goal.maxHeightM() == null ? usual : held(usual, lowest, Math.log(goal.maxHeightM()));
    LogNormal spread = stock.spreadM().value().times(length);
    double spreadM = spread.median();
    boolean wall =
        goal.support() == Goal.Support.TRELLIS
            && goal.purpose() == Goal.Purpose.MARKET_ORCHARD
            && spreadM <= WALL_SPREAD_M;
    double inRowM = decimetres(wall ? Math.max(WALL_IN_ROW_M, WALL_SHARE * spreadM) : spreadM);
    double lightM = height.median() / HEIGHT_TO_ROW;
    double rowM =
        decimetres(wall ? Math.max(WALL_ROW_M, lightM) : Math.max(inRowM + alleyM, lightM));
    LogNormal yield =
        crop(
            stock.matureYieldKg().value(),
            variety.lengthFactor(),
            site.yieldFactor(),
            inRowM * rowM);
    double later = DELAY_EXPONENT * variety.lengthFactor().mu() + site.delayFactor().mu();
    double laterSd =
        LogNormal.both(DELAY_EXPONENT * variety.lengthFactor().sigma(), site.delayFactor().sigma());
    LogNormal first = shifted(stock.firstCropYear().value(), later, laterSd);
    LogNormal full = shifted(stock.fullCropYear().value(), later, laterSd);
    SupportNeed support =
        site.exposed() ? stock.support().need().exposed() : stock.support().need();
    return new Expectations(
        free,
        height,
        lowest,
        spread,
        first,
        full,
        stock.lifeYears().value(),
        yield,
        inRowM,
        rowM,
        support);
  }

  /**
   * Height when the grower cuts back to a wish: the wish where it lies between what the tree would
   * make and what pruning holds, else the nearer of the two. Big trees stay big: pruning moves size
   * some, not a lot.
   */
  private static LogNormal held(LogNormal usual, LogNormal lowest, double wishLog) {
    double low = held(usual, lowest, wishLog, -Z90);
    double high = held(usual, lowest, wishLog, Z90);
    return new LogNormal(held(usual, lowest, wishLog, 0), (high - low) / (2 * Z90));
  }

  private static double held(LogNormal usual, LogNormal lowest, double wishLog, double z) {
    double made = usual.mu() + usual.sigma() * z;
    double floor = Math.min(made, lowest.mu() + lowest.sigma() * z);
    return Math.min(made, Math.max(wishLog, floor));
  }

  private static LogNormal crop(LogNormal tree, LogNormal length, LogNormal site, double groundM2) {
    double mu = tree.mu() + CROP_EXPONENT * length.mu() + site.mu();
    double variance =
        tree.sigma() * tree.sigma()
            + CROP_EXPONENT * CROP_EXPONENT * length.sigma() * length.sigma()
            + site.sigma() * site.sigma();
    return new LogNormal(Math.min(mu, Math.log(MOST_KG_PER_M2 * groundM2)), Math.sqrt(variance));
  }

  private static LogNormal shifted(LogNormal years, double log, double sd) {
    return new LogNormal(years.mu() + log, LogNormal.both(years.sigma(), sd));
  }

  private static double decimetres(double m) {
    return Math.max(0.5, Math.rint(m * 10) / 10);
  }
}
