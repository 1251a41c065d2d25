package org.understock.service.card;

import java.util.List;
import org.understock.plant.Crop;
import org.understock.plant.Plants;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.service.problem.ProblemError;
import org.understock.service.problem.ProblemException;
import org.understock.service.problem.ProblemType;
import org.understock.service.reading.Refused;

/** The stock and the variety that a path means. */
record Found(Stock stock, Variety variety) {
  private static final int NEAREST = 5;

  /**
   * @throws ProblemException not found, with the nearest that are known, for names that mean none
   *     or more than one, a stock that cannot be planted, and a stock that no evidence ties to the
   *     variety's crop
   */
  static Found of(Plants plants, String stock, String variety) {
    Stock root =
        plants
            .stock(stock)
            .or(() -> plants.resolveStock(stock))
            .orElseThrow(
                () -> Refused.notFound("stock", "stock", stock, plants.nearestStocks(stock)));
    if (root.kind() == Stock.Kind.CLASS)
      throw refused(
          "stock",
          "'" + root.name() + "' is a class of stocks, not one that is planted.",
          stock,
          plants.nearestStocks(stock).stream().filter(id -> !id.equals(root.id())).toList());
    List<Variety> meant = plants.meantVarieties(variety);
    if (meant.isEmpty())
      throw Refused.notFound("variety", "variety", variety, plants.nearestVarieties(variety));
    List<Variety> fitting = meant.stream().filter(v -> root.crops().contains(v.crop())).toList();
    if (fitting.size() == 1) return new Found(root, fitting.get(0));
    if (fitting.size() > 1)
      throw refused(
          "variety",
          "'" + variety + "' means a variety of more than one crop; give its id.",
          variety,
          fitting.stream().map(Variety::id).toList());
    Crop crop = meant.get(0).crop();
    throw refused(
        "stock",
        "No evidence ties the stock "
            + root.name()
            + " to "
            + crop.word()
            + "; it is known for "
            + String.join(", ", root.crops().stream().sorted().map(Crop::word).toList())
            + ".",
        stock,
        List.of());
  }

  private static ProblemException refused(
      String parameter, String detail, Object given, List<String> nearest) {
    return ProblemException.of(
        ProblemType.NOT_FOUND,
        detail,
        List.of(
            new ProblemError(
                null,
                parameter,
                "makes no pairing",
                null,
                given,
                nearest.isEmpty() ? null : nearest.stream().limit(NEAREST).toList())));
  }
}
