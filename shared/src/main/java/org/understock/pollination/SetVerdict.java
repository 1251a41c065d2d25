package org.understock.pollination;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.understock.plant.Variety;
import org.understock.wording.Sentence;

/**
 * A set of varieties checked as a whole.
 *
 * @param pairs one verdict for each ordered pair, a variety with itself included, in the order of
 *     the set (receiver first, then donor)
 * @param receipts whether each variety gets pollen, in the order of the set
 * @param mendings for each kind of fruit that is not served whole, what would mend it
 */
public record SetVerdict(List<PairVerdict> pairs, List<Receipt> receipts, List<Mending> mendings) {
  public SetVerdict {
    pairs = List.copyOf(pairs);
    receipts = List.copyOf(receipts);
    mendings = List.copyOf(mendings);
  }

  /** Whether a variety gets pollen that works, its own or another's. */
  public enum State {
    /** Known to. */
    SERVED,
    /** It may; the evidence does not say. */
    UNSURE,
    /** Known not to. */
    UNSERVED;

    /** Slug, such as {@code unsure}. */
    public String id() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  /**
   * What one variety of the set gets.
   *
   * @param donors ids of the others in the set that are sure to pollinate it, in the order of the
   *     set
   * @param text for people
   */
  public record Receipt(Variety variety, State state, List<String> donors, Sentence text) {
    public Receipt {
      donors = List.copyOf(donors);
    }
  }

  /**
   * What would mend the set for one kind of fruit.
   *
   * @param mends ids of the varieties of the set that any of the options serves
   * @param beyond ids of those that none of the varieties to choose from is known to serve
   * @param options as few further varieties as mend it, which also serve each other; the best
   *     option first, each in the order of their ids
   * @param fewest whether it is certain that no fewer would do; not so when the search was cut
   *     short
   * @param likely where something is beyond: additions with which everything would most likely be
   *     served, though it is not proven; like the options
   * @param likelyServed ids of those beyond that the set itself most likely serves, though it is
   *     not proven
   * @param stillBeyond ids of those that nothing even likely serves
   */
  public record Mending(
      List<String> mends,
      List<String> beyond,
      List<List<Variety>> options,
      boolean fewest,
      List<List<Variety>> likely,
      List<String> likelyServed,
      List<String> stillBeyond) {
    public Mending {
      mends = List.copyOf(mends);
      beyond = List.copyOf(beyond);
      options = options.stream().map(List::copyOf).toList();
      likely = likely.stream().map(List::copyOf).toList();
      likelyServed = List.copyOf(likelyServed);
      stillBeyond = List.copyOf(stillBeyond);
    }
  }

  /**
   * One variety out of the options.
   *
   * @param mends ids of the varieties of the set that were not served and that it is sure to serve
   * @param mayMend ids of those that it most likely serves; both are empty when it is there for the
   *     sake of another addition
   * @param proven whether it is part of an option that is sure to mend what it says
   */
  public record Suggestion(
      Variety variety, List<String> mends, List<String> mayMend, boolean proven) {
    public Suggestion {
      mends = List.copyOf(mends);
      mayMend = List.copyOf(mayMend);
    }
  }

  /** True when every variety is known to get pollen that works in time. */
  public boolean complete() {
    return receipts.stream().allMatch(r -> r.state() == State.SERVED);
  }

  /**
   * UNSERVED when a variety is known to get no pollen, else UNSURE when one may get none, else
   * SERVED.
   */
  public State outcome() {
    return receipts.stream()
        .map(Receipt::state)
        .max(java.util.Comparator.naturalOrder())
        .orElse(State.SERVED);
  }

  /** Ids of the varieties in a state, in the order of the set. */
  public List<String> in(State state) {
    return receipts.stream().filter(r -> r.state() == state).map(r -> r.variety().id()).toList();
  }

  /**
   * The varieties of all options, those of the best options first, and then those that are only
   * likely to help; true for the former.
   */
  Map<Variety, Boolean> proposed() {
    Map<Variety, Boolean> proposed = new LinkedHashMap<>();
    addInTurn(mendings.stream().map(Mending::options).toList(), proposed, true);
    addInTurn(mendings.stream().map(Mending::likely).toList(), proposed, false);
    return proposed;
  }

  private static void addInTurn(
      List<List<List<Variety>>> lists, Map<Variety, Boolean> into, boolean proven) {
    int longest = lists.stream().mapToInt(List::size).max().orElse(0);
    for (int k = 0; k < longest; k++) {
      for (List<List<Variety>> options : lists)
        if (k < options.size()) options.get(k).forEach(v -> into.putIfAbsent(v, proven));
    }
  }
}
