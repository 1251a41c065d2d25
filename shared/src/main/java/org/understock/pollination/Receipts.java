package org.understock.pollination;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.understock.plant.Variety;
import org.understock.pollination.SetVerdict.Receipt;
import org.understock.pollination.SetVerdict.State;

/** What one variety of a planting gets, with the sentence that says so. */
final class Receipts {
  private Receipts() {}

  /**
   * @param others verdicts on the pollen of the other varieties of the planting
   */
  static Receipt of(
      Variety receiver, Allele.Known itself, PairVerdict self, Map<Variety, PairVerdict> others) {
    List<Variety> donors =
        others.entrySet().stream()
            .filter(e -> e.getValue().isSure())
            .map(Map.Entry::getKey)
            .toList();
    List<Variety> open =
        others.entrySet().stream()
            .filter(e -> e.getValue().isOpen())
            .map(Map.Entry::getKey)
            .toList();
    List<String> ids = donors.stream().map(Variety::id).toList();
    if (itself == Allele.Known.YES) return new Receipt(receiver, State.SERVED, ids, self.text());
    if (!donors.isEmpty())
      return new Receipt(
          receiver,
          State.SERVED,
          ids,
          receiver.name() + " gets pollen that works from " + list(donors) + ".");
    if (!open.isEmpty()) {
      Variety likeliest =
          open.stream()
              .max(Comparator.comparingDouble(v -> chance(Objects.requireNonNull(others.get(v)))))
              .orElseThrow();
      String may =
          " No other pollen here is known to work on it in time; that of " + list(open) + " may. ";
      return new Receipt(
          receiver,
          State.UNSURE,
          ids,
          self.text() + may + Objects.requireNonNull(others.get(likeliest)).text());
    }
    String none =
        others.isEmpty() ? " It stands alone." : " No other pollen here works on it in time.";
    return new Receipt(
        receiver,
        itself == Allele.Known.OPEN ? State.UNSURE : State.UNSERVED,
        ids,
        self.text() + none);
  }

  private static double chance(PairVerdict pair) {
    return Double.isNaN(pair.chanceUsable())
        ? 0
        : pair.chanceUsable() - (pair.overlap() == Overlap.UNKNOWN ? 0.5 : 0);
  }

  private static String list(List<Variety> varieties) {
    List<String> names = varieties.stream().map(Variety::name).toList();
    if (names.size() < 2) return names.get(0);
    return String.join(", ", names.subList(0, names.size() - 1))
        + " and "
        + names.get(names.size() - 1);
  }
}
