package org.understock.planting;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.advice.Pairing;
import org.understock.economics.Spread;

/**
 * Plantings of one plot, held against each other: by what they bring a year where prices are given,
 * else by the kilograms that they bear.
 *
 * @param byMoney whether by money
 * @param plantings the best first
 * @param partings how the first and each of the others part
 * @param notPlanted pairings that cannot be planted here, and why
 * @param cautions that hold for every planting
 * @param judged pairings that advice judged to choose those that are compared; 0 where they were
 *     named
 * @param text the whole, to be read aloud
 */
public record Comparison(
    boolean byMoney,
    int years,
    List<Compared> plantings,
    List<Parting> partings,
    List<NotPlanted> notPlanted,
    List<PlantingPlan.Caution> cautions,
    int judged,
    String text) {

  public Comparison {
    plantings = List.copyOf(plantings);
    partings = List.copyOf(partings);
    notPlanted = List.copyOf(notPlanted);
    cautions = List.copyOf(cautions);
  }

  /**
   * One planting.
   *
   * @param rank from 1, by the median of the annuity, or of all kilograms
   * @param kg borne each year until the trees are spent
   * @param cumulativeKg to the end of each year, from year 0 on
   * @param totalKg borne within the years looked at
   * @param withoutCrop seasons at the beginning that more likely than not bear nothing
   * @param account null where no prices are given
   * @param chanceBest 0 to 1 that it is the best of those compared
   * @param cautions that hold for this planting and not for all
   * @param text to be read aloud
   */
  public record Compared(
      int rank,
      PlantingPlan plan,
      List<Spread> kg,
      List<Spread> cumulativeKg,
      Spread totalKg,
      int withoutCrop,
      @Nullable Account account,
      double chanceBest,
      List<PlantingPlan.Caution> cautions,
      String text) {
    public Compared {
      kg = List.copyOf(kg);
      cumulativeKg = List.copyOf(cumulativeKg);
      cautions = List.copyOf(cautions);
    }

    /** The pairing that is compared; partners, if any, come after it in the plan. */
    public Pairing pairing() {
      return plan.pairings().get(0);
    }

    /** What has come in to the end of each year, or been borne, from year 0 on. */
    public List<Spread> line() {
      return account == null
          ? cumulativeKg
          : account.years().stream().map(Account.Year::cumulative).toList();
    }
  }

  /**
   * How two plantings part.
   *
   * @param years at whose end the middle line that was behind is ahead; empty where one leads
   *     throughout
   * @param chanceFirst 0 to 1 that the first of the two has brought (or borne) more in all at the
   *     end
   */
  public record Parting(
      int first, int other, List<Integer> years, double chanceFirst, String text) {
    public Parting {
      years = List.copyOf(years);
    }
  }

  /** A pairing that was not planted. */
  public record NotPlanted(String name, String text) {}
}
