package org.understock.plant;

import java.text.Normalizer;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import org.understock.trait.PlainText;
import org.understock.trait.Refusal;

/**
 * An index from spellings to ids. Case, accents, spaces and punctuation do not count: "MM 106",
 * "mm106" and "MM.106" are one key.
 */
public final class Names {
  private static final Pattern SLUG = Pattern.compile("[a-z0-9]+(-[a-z0-9]+)*");
  private static final int LONGEST = 200;

  private final Map<String, Set<String>> idsByKey = new LinkedHashMap<>();
  private final Set<String> ids = new LinkedHashSet<>();

  /**
   * What an id, a name and other spellings of a plant must be. @throws Refusal naming the one that
   * is not
   */
  static void check(String id, String name, List<String> synonyms) {
    if (!SLUG.matcher(id).matches())
      throw new Refusal.OutOfRange(
          "id", "'" + id + "'", "lower-case letters and digits, joined by hyphens");
    spelling("name", name);
    for (String synonym : synonyms) spelling("synonyms", synonym);
  }

  private static void spelling(String field, String text) {
    PlainText.check(field, text, LONGEST);
    if (text.isEmpty() || text.indexOf('|') >= 0)
      throw new Refusal.OutOfRange(field, "'" + text + "'", "a name without a vertical bar");
  }

  void add(String id, String name, List<String> synonyms) {
    ids.add(id);
    idsByKey.computeIfAbsent(key(id), k -> new LinkedHashSet<>()).add(id);
    idsByKey.computeIfAbsent(key(name), k -> new LinkedHashSet<>()).add(id);
    for (String synonym : synonyms)
      idsByKey.computeIfAbsent(key(synonym), k -> new LinkedHashSet<>()).add(id);
  }

  /** Lower case, accents folded, only letters and digits kept. */
  public static String key(String text) {
    String folded = Normalizer.normalize(text, Normalizer.Form.NFD).replaceAll("\\p{M}+", "");
    return folded.toLowerCase(Locale.ROOT).replaceAll("[^\\p{L}\\p{N}]+", "");
  }

  /** Lower-case slug of a name: {@code "M.9 NAKBT337"} becomes {@code m-9-nakbt337}. */
  public static String slug(String name) {
    String folded = Normalizer.normalize(name, Normalizer.Form.NFD).replaceAll("\\p{M}+", "");
    return folded.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-").replaceAll("^-|-$", "");
  }

  Set<String> resolveAll(String text) {
    return idsByKey.getOrDefault(key(text), Set.of());
  }

  Optional<String> resolve(String text) {
    Set<String> found = resolveAll(text);
    return found.size() == 1 ? Optional.of(found.iterator().next()) : Optional.empty();
  }

  /**
   * Ids by match: exact key, then keys that start with the text, then keys that contain it; inside
   * a class by length, then id.
   */
  List<String> find(String text) {
    String wanted = key(text);
    if (wanted.isEmpty()) return List.copyOf(ids);
    record Hit(int rank, int length, String id) {}
    List<Hit> hits = new ArrayList<>();
    idsByKey.forEach(
        (key, found) -> {
          int rank =
              key.equals(wanted) ? 0 : key.startsWith(wanted) ? 1 : key.contains(wanted) ? 2 : -1;
          if (rank >= 0) for (String id : found) hits.add(new Hit(rank, key.length(), id));
        });
    hits.sort(
        Comparator.comparingInt(Hit::rank).thenComparingInt(Hit::length).thenComparing(Hit::id));
    Set<String> ordered = new LinkedHashSet<>();
    for (Hit hit : hits) ordered.add(hit.id());
    return List.copyOf(ordered);
  }

  /** The ids whose spellings are nearest to the text by edit distance, nearest first. */
  List<String> nearest(String text, int most) {
    String wanted = key(text);
    record Near(int distance, String id) {}
    List<Near> near = new ArrayList<>();
    idsByKey.forEach(
        (key, found) -> {
          int distance = editDistance(wanted.length() > 60 ? wanted.substring(0, 60) : wanted, key);
          if (distance <= Math.max(2, key.length() / 2))
            for (String id : found) near.add(new Near(distance, id));
        });
    near.sort(Comparator.comparingInt(Near::distance).thenComparing(Near::id));
    Set<String> ordered = new LinkedHashSet<>();
    for (Near n : near) if (ordered.size() < most) ordered.add(n.id());
    return List.copyOf(ordered);
  }

  /**
   * Of some known words the ones nearest to a text by edit distance, nearest first, then in the
   * order given.
   */
  public static List<String> closest(String text, List<String> known, int most) {
    String given = text.length() > 60 ? text.substring(0, 60) : text;
    int reach = Math.max(2, given.length() / 2);
    return known.stream()
        .filter(word -> editDistance(given, word) <= reach)
        .sorted(Comparator.comparingInt(word -> editDistance(given, word)))
        .limit(most)
        .toList();
  }

  /**
   * How many letters have to be put in, left out, changed or swapped with their neighbour to make
   * one text from the other (optimal string alignment); both texts are short.
   */
  public static int editDistance(String a, String b) {
    int[] beforeLast = new int[b.length() + 1];
    int[] last = new int[b.length() + 1];
    for (int j = 0; j <= b.length(); j++) last[j] = j;
    for (int i = 1; i <= a.length(); i++) {
      int[] row = new int[b.length() + 1];
      row[0] = i;
      for (int j = 1; j <= b.length(); j++) {
        int changed = last[j - 1] + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
        row[j] = Math.min(changed, Math.min(last[j], row[j - 1]) + 1);
        boolean swapped =
            i > 1
                && j > 1
                && a.charAt(i - 1) == b.charAt(j - 2)
                && a.charAt(i - 2) == b.charAt(j - 1);
        if (swapped) row[j] = Math.min(row[j], beforeLast[j - 2] + 1);
      }
      beforeLast = last;
      last = row;
    }
    return last[b.length()];
  }
}
