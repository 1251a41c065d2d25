package org.understock.evidence.reading;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.BiConsumer;
import java.util.function.Function;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import org.understock.trait.Refusal;

/**
 * Hands on entries that may lean on one another (a clone on its stock, a source on its origin) so
 * that each comes after the one it leans on, wherever in the file that stands. Only entries that
 * wait are kept.
 */
final class Families<T> {
  private static final int MOST_WAITING = 20_000;

  private record Waiting<T>(long line, T entry, String parent) {}

  private final String field;
  private final Function<T, String> id;
  private final Function<T, @Nullable String> parent;
  private final Predicate<String> known;
  private final BiConsumer<Long, T> to;
  private final Set<String> seen = new HashSet<>();
  private final Set<String> ready = new HashSet<>();
  private final Map<String, List<Waiting<T>>> waiting = new HashMap<>();
  private int waitingCount;

  /**
   * @param field column of the parent's id, for refusals
   * @param known whether an id was known before the file
   */
  Families(
      String field,
      Function<T, String> id,
      Function<T, @Nullable String> parent,
      Predicate<String> known,
      BiConsumer<Long, T> to) {
    this.field = field;
    this.id = id;
    this.parent = parent;
    this.known = known;
    this.to = to;
  }

  /**
   * @throws Refusal when the id was given before in this file
   */
  void add(long line, T entry) {
    if (!seen.add(id.apply(entry)))
      throw new Refusal.Conflict("id", "the id " + id.apply(entry) + " stands in the file twice");
    String leans = parent.apply(entry);
    if (leans != null && !known.test(leans) && !ready.contains(leans)) {
      if (++waitingCount > MOST_WAITING) {
        throw new Refusal.Conflict(
            field,
            "more than "
                + MOST_WAITING
                + " rows name something that stands further down; sort the file so that it comes first");
      }
      waiting.computeIfAbsent(leans, p -> new ArrayList<>()).add(new Waiting<>(line, entry, leans));
      return;
    }
    release(line, entry);
  }

  private void release(long line, T entry) {
    Deque<Waiting<T>> next = new ArrayDeque<>(List.of(new Waiting<>(line, entry, "")));
    while (!next.isEmpty()) {
      Waiting<T> one = next.poll();
      to.accept(one.line(), one.entry());
      ready.add(id.apply(one.entry()));
      List<Waiting<T>> freed = waiting.remove(id.apply(one.entry()));
      if (freed != null) next.addAll(freed);
    }
  }

  /** Tells of every entry whose parent never came. */
  void end(BiConsumer<Long, Refusal> refused, Function<String, List<String>> nearest) {
    waiting.values().stream()
        .flatMap(List::stream)
        .sorted(java.util.Comparator.comparingLong(Waiting::line))
        .forEach(
            w ->
                refused.accept(
                    w.line(), new Refusal.Unknown(field, w.parent(), nearest.apply(w.parent()))));
  }
}
