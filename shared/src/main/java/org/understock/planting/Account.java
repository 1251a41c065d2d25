package org.understock.planting;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.economics.Money;
import org.understock.economics.Spread;

/**
 * What a planting costs and brings by the asker's own prices. Sums are in the asker's currency; the
 * planting is paid for at the beginning (year 0), all else at the end of its year.
 *
 * @param outlay what planting costs, item by item; what was not given is not in it
 * @param outlaySum all of it
 * @param years the beginning and every year to the horizon, each by itself
 * @param paybackYear year at whose end all that was paid has come in again; a null percentile lies
 *     beyond the horizon
 * @param chancePaidBack 0 to 1 that it pays back within the horizon
 * @param netPresentValue worth today of all payments to the horizon
 * @param chanceOfGain 0 to 1 that this is above 0
 * @param annuity equal yearly payment, while the planting stands, that is worth as much; by it
 *     plantings of different life compare
 * @param internalRatePercent null where there is no such rate to speak of
 * @param noInternalRate why not
 * @param breakEvenPerKg price of good fruit, the same in all years, at which the worth is 0; null
 *     percentiles where nothing is sold
 * @param standingYears years in which it stands within the horizon
 * @param chanceBeyond 0 to 1 that trees stand beyond the horizon
 * @param assumed what was not told and therefore assumed
 * @param uncounted costs that were not given and are not counted
 * @param text the whole, to be read aloud
 */
public record Account(
    Money money,
    List<Item> outlay,
    double outlaySum,
    List<Year> years,
    Spread paybackYear,
    double chancePaidBack,
    Spread netPresentValue,
    double chanceOfGain,
    Spread annuity,
    @Nullable Spread internalRatePercent,
    @Nullable String noInternalRate,
    Spread breakEvenPerKg,
    Spread standingYears,
    double chanceBeyond,
    List<Note> assumed,
    List<Note> uncounted,
    String text) {

  public Account {
    outlay = List.copyOf(outlay);
    years = List.copyOf(years);
    assumed = List.copyOf(assumed);
    uncounted = List.copyOf(uncounted);
  }

  /** What plantings cost and bring by the prices given. */
  public static Account of(PlantingPlan plan, Years years, Money money) {
    return of(plan, money, new Ledger(plan, years, money, money.horizonYears()));
  }

  static Account of(PlantingPlan plan, Money money, Ledger ledger) {
    return Bookkeeping.close(plan, money, ledger);
  }

  /**
   * One item of the outlay.
   *
   * @param count how many trees, metres or hectares
   */
  public record Item(String text, double count, double each, double sum) {}

  /**
   * One year.
   *
   * @param year 0 = the beginning
   * @param kg borne
   * @param cash what comes in less what is paid
   * @param cumulative all up to its end, not discounted
   */
  public record Year(int year, Spread kg, Spread cash, Spread cumulative) {}

  /**
   * @param field path of what was not given, such as {@code money.costs.treeEach}
   */
  public record Note(String field, String text) {}
}
