package org.understock.pollination;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collection;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.function.IntFunction;
import java.util.function.IntPredicate;
import org.jspecify.annotations.Nullable;
import org.understock.plant.Crop;
import org.understock.plant.Variety;
import org.understock.pollination.SetVerdict.Mending;
import org.understock.pollination.SetVerdict.Receipt;
import org.understock.pollination.SetVerdict.State;
import org.understock.pollination.SetVerdict.Suggestion;

/**
 * Checks plantings as a whole: whether every variety gets pollen that works while it blooms, and
 * which further varieties would mend a planting where one does not. Kinds that do not cross may
 * stand in one planting; each is looked at by itself.
 */
public final class PollenCheck {
  private final Function<Crop, Pollination> pollinations;

  /**
   * @param pollinations the crops' pollination as of one revision
   */
  public PollenCheck(Function<Crop, Pollination> pollinations) {
    this.pollinations = pollinations;
  }

  /**
   * Checks a planting.
   *
   * @param set its varieties, each once
   * @param from varieties that may be added; null for all of the catalogue
   * @param most options to show for each kind of fruit
   */
  public SetVerdict check(List<Variety> set, @Nullable Collection<Variety> from, int most) {
    List<PairVerdict> pairs = new ArrayList<>();
    List<Receipt> receipts = new ArrayList<>();
    for (Variety receiver : set) {
      Pollination pollination = pollinations.apply(receiver.crop());
      Map<Variety, PairVerdict> others = new LinkedHashMap<>();
      for (Variety donor : set) {
        PairVerdict pair = pollination.verdict(donor.id(), receiver.id());
        pairs.add(pair);
        if (donor != receiver) others.put(donor, pair);
      }
      receipts.add(
          Receipts.of(
              receiver,
              pollination.servesItself(receiver.id()),
              pollination.self(receiver.id()),
              others));
    }
    List<Mending> mendings = new ArrayList<>();
    Set<Crop> left = EnumSet.noneOf(Crop.class);
    for (Receipt receipt : receipts)
      if (receipt.state() != State.SERVED) left.add(receipt.variety().crop());
    while (!left.isEmpty()) {
      Crop crop = left.iterator().next();
      left.removeIf(other -> CropRule.canCross(crop, other));
      mendings.add(mend(crop, set, from, most));
    }
    return new SetVerdict(pairs, receipts, mendings);
  }

  /** The varieties of all options, those of the best options first, each with what it serves. */
  public List<Suggestion> suggestions(SetVerdict verdict) {
    List<Receipt> needy =
        verdict.receipts().stream().filter(r -> r.state() != State.SERVED).toList();
    List<Suggestion> suggestions = new ArrayList<>();
    verdict
        .proposed()
        .forEach(
            (variety, proven) -> {
              List<String> mends = new ArrayList<>();
              List<String> mayMend = new ArrayList<>();
              for (Receipt receipt : needy) {
                Variety receiver = receipt.variety();
                PairVerdict pair =
                    pollinations.apply(receiver.crop()).verdict(variety.id(), receiver.id());
                if (pair.isSure()) mends.add(receiver.id());
                else if (pair.isLikely()) mayMend.add(receiver.id());
              }
              suggestions.add(new Suggestion(variety, mends, mayMend, proven));
            });
    return suggestions;
  }

  private Mending mend(Crop crop, List<Variety> set, @Nullable Collection<Variety> from, int most) {
    List<Flower> donors = pollinations.apply(crop).donors();
    Map<String, Integer> places = new HashMap<>();
    for (int k = 0; k < donors.size(); k++) places.put(donors.get(k).variety().id(), k);
    BitSet planted = places(set, places);
    BitSet choice = new BitSet();
    if (from == null) choice.set(0, donors.size());
    else choice.or(places(from, places));
    Pollination.Helpers[] helpers = new Pollination.Helpers[donors.size()];
    Boolean[] alone = new Boolean[donors.size()];
    IntPredicate servesItself =
        v -> {
          if (alone[v] == null)
            alone[v] =
                of(donors.get(v)).servesItself(donors.get(v).variety().id()) == Allele.Known.YES;
          return alone[v];
        };
    IntFunction<Pollination.Helpers> proven =
        v -> {
          if (helpers[v] == null)
            helpers[v] = of(donors.get(v)).helpers(donors.get(v).variety().id());
          return helpers[v];
        };
    int[] weights = donors.stream().mapToInt(Flower::weight).toArray();
    Additions.Result result =
        new Additions(planted, choice, servesItself, proven, weights, most).search();
    Additions.Result lenient =
        result.beyond().isEmpty()
            ? Additions.Result.NONE
            : new Additions(
                    planted, choice, servesItself, v -> proven.apply(v).leniently(), weights, most)
                .search();
    BitSet likelyServed = (BitSet) result.beyond().clone();
    likelyServed.andNot(lenient.goal());
    likelyServed.andNot(lenient.beyond());
    return new Mending(
        inOrder(set, places, result.goal()),
        inOrder(set, places, result.beyond()),
        named(result, donors),
        result.fewest(),
        lenient.goal().intersects(result.beyond()) ? named(lenient, donors) : List.of(),
        inOrder(set, places, likelyServed),
        inOrder(set, places, lenient.beyond()));
  }

  private static List<List<Variety>> named(Additions.Result result, List<Flower> donors) {
    return result.options().stream()
        .map(option -> option.stream().map(v -> donors.get(v).variety()).toList())
        .toList();
  }

  private Pollination of(Flower flower) {
    return pollinations.apply(flower.variety().crop());
  }

  private static BitSet places(Collection<Variety> varieties, Map<String, Integer> places) {
    BitSet bits = new BitSet();
    for (Variety variety : varieties)
      if (places.containsKey(variety.id())) bits.set(places.get(variety.id()));
    return bits;
  }

  private static List<String> inOrder(List<Variety> set, Map<String, Integer> places, BitSet bits) {
    return set.stream()
        .map(Variety::id)
        .filter(id -> places.containsKey(id) && bits.get(places.get(id)))
        .toList();
  }
}
