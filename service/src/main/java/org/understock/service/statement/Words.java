package org.understock.service.statement;

import java.util.Arrays;
import java.util.Locale;
import org.understock.trait.Refusal;

/** From a word of the contract to the engine's constant. */
final class Words {
  private Words() {}

  static <E extends Enum<E>> E constant(String field, String word, Class<E> type) {
    for (E constant : type.getEnumConstants())
      if (constant.name().equalsIgnoreCase(word)) return constant;
    throw new Refusal.Unknown(
        field,
        word,
        Arrays.stream(type.getEnumConstants())
            .map(c -> c.name().toLowerCase(Locale.ROOT))
            .toList());
  }
}
