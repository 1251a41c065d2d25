package org.understock.pollination;

import java.util.Comparator;
import java.util.List;
import java.util.Locale;
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
    if (itself == Allele.Known.YES) return new Receipt(receiver, State.SERVED, ids, self::text);
    if (!donors.isEmpty())
      return new Receipt(
          receiver,
          State.SERVED,
          ids,
          words ->
              words.say(
                  "pollination.served",
                  "variety",
                  receiver.name(),
                  "donors",
                  words.all(names(donors))));
    if (!open.isEmpty()) {
      Variety likeliest =
          open.stream()
              .max(Comparator.comparingDouble(v -> chance(Objects.requireNonNull(others.get(v)))))
              .orElseThrow();
      PairVerdict best = Objects.requireNonNull(others.get(likeliest));
      return new Receipt(
          receiver,
          State.UNSURE,
          ids,
          words ->
              self.text(words)
                  + " "
                  + words.say("pollination.may", "donors", words.all(names(open)))
                  + " "
                  + best.text(words));
    }
    String none = others.isEmpty() ? "pollination.alone" : "pollination.none-in-time";
    return new Receipt(
        receiver,
        itself == Allele.Known.OPEN ? State.UNSURE : State.UNSERVED,
        ids,
        words -> self.text(words) + " " + words.say(none));
  }

  private static double chance(PairVerdict pair) {
    return Double.isNaN(pair.chanceUsable())
        ? 0
        : pair.chanceUsable() - (pair.overlap() == Overlap.UNKNOWN ? 0.5 : 0);
  }

  private static List<String> names(List<Variety> varieties) {
    return varieties.stream().map(Variety::name).toList();
  }

  /** A chance in whole per cent, half to the nearest as numbers are printed. */
  static String percent(double chance) {
    return String.format(Locale.ROOT, "%.0f", 100 * chance);
  }
}
