package org.understock.planting;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.advice.Question;
import org.understock.economics.Money;
import org.understock.plant.Crop;
import org.understock.site.Goal;
import org.understock.site.Site;
import org.understock.trait.Refusal;

/**
 * Which pairings to plant on the same plot, each by itself, so that they can be held against each
 * other.
 *
 * @param crop of the candidates; null where pairings are named
 * @param stocks candidates, as for advice; empty for all
 * @param varieties candidates, as for advice; empty for all
 * @param pairings pairings to compare in place of candidates; empty to take advice's best
 * @param partners pollen partners that every planting gets, as few as do it
 * @param most plantings to compare, 2 to 10
 * @param money prices and costs; null to compare kilograms
 * @param years how far to look, 1 to 60; the money's horizon where there is one
 */
public record ComparisonQuestion(
    Plot plot,
    Layout layout,
    Site site,
    Goal goal,
    PollenRule pollen,
    double sparePercent,
    @Nullable Crop crop,
    List<String> stocks,
    List<String> varieties,
    List<Named> pairings,
    List<Partner> partners,
    int most,
    Question.BestPer bestPer,
    @Nullable Money money,
    int years) {

  /** Most plantings of one comparison. */
  public static final int MOST = 10;

  /**
   * One pairing by ids, with what differs from the others in price.
   *
   * @param pricePerKg of its fruit; null for the common one
   * @param treeEach cost of its tree; null for the common one
   */
  public record Named(
      String stock, String variety, @Nullable Double pricePerKg, @Nullable Double treeEach) {}

  /** A pollen partner by ids. */
  public record Partner(String stock, String variety) {}

  public ComparisonQuestion {
    stocks = List.copyOf(stocks);
    varieties = List.copyOf(varieties);
    pairings = List.copyOf(pairings);
    partners = List.copyOf(partners);
    if (most < 2 || most > MOST)
      throw new Refusal.OutOfRange("most", most, "between 2 and " + MOST);
    if (pairings.size() == 1 || pairings.size() > MOST)
      throw new Refusal.OutOfRange(
          "pairings", pairings.size() + " pairings", "between 2 and " + MOST + " pairings");
    if (!pairings.isEmpty() && (crop != null || !stocks.isEmpty() || !varieties.isEmpty()))
      throw new Refusal.Conflict(
          "pairings",
          "give pairings to compare, or crop and candidates to choose them from, not both");
    if (pairings.isEmpty() && crop == null)
      throw new Refusal.Conflict(
          "pairings",
          "give two or more pairings to compare, or crop (with candidates, or without) to have the best ones chosen");
    if (money == null) {
      for (int k = 0; k < pairings.size(); k++) {
        if (pairings.get(k).pricePerKg() != null || pairings.get(k).treeEach() != null)
          throw new Refusal.Conflict(
              "pairings[" + k + "]",
              "pairings["
                  + k
                  + "] has a price of its own, but there is no money to reckon with; give money.price.perKg too");
      }
      if (years < 1 || years > Years.MOST)
        throw new Refusal.OutOfRange("years", years, "between 1 and " + Years.MOST);
    } else if (money.horizonYears() != years) {
      throw new Refusal.Conflict(
          "years",
          "years is " + years + " and money.horizonYears " + money.horizonYears() + "; give one");
    }
  }
}
