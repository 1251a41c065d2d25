package org.understock.site;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.understock.trait.Refusal;

/**
 * A word of a closed vocabulary: an enum constant whose slug is its name in lower case with
 * hyphens.
 */
public interface Word {
  String name();

  /** Slug used in the contract, such as {@code poorly-drained}. */
  default String id() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** All slugs of a vocabulary. */
  static <W extends Enum<W> & Word> List<String> ids(Class<W> vocabulary) {
    return Arrays.stream(vocabulary.getEnumConstants()).map(Word::id).toList();
  }

  /**
   * @throws Refusal.Unknown naming all words of the vocabulary
   */
  static <W extends Enum<W> & Word> W of(Class<W> vocabulary, String field, String id) {
    for (W word : vocabulary.getEnumConstants()) if (word.id().equals(id)) return word;
    throw new Refusal.Unknown(field, id, ids(vocabulary));
  }
}
