package org.understock.planting;

import org.understock.advice.Pairing;
import org.understock.advice.Units;
import org.understock.wording.Sentence;
import org.understock.wording.Words;

/** Something said of a plan, before it is known in which language and units. */
@FunctionalInterface
public interface PlanText {
  String in(Words words, Units units);

  /** A length among the values of a text, told in the units that are asked for. */
  record Length(double m) {}

  /**
   * @param key of the sentence in the files of words
   * @param named names and values in turn, as {@link Words#say} takes them, and lengths
   */
  static PlanText of(String key, Object... named) {
    return (words, units) -> {
      Object[] told = named.clone();
      for (int k = 1; k < told.length; k += 2) {
        if (told[k] instanceof Length length) told[k] = (Sentence) w -> units.length(w, length.m());
        else if (told[k] instanceof PlanText text) told[k] = text.in(words, units);
      }
      return words.say(key, told);
    };
  }

  /** "Fuji on G.969". */
  static PlanText named(Pairing pairing) {
    return of(
        "portrait.title", "variety", pairing.variety().name(), "stock", pairing.stock().name());
  }

  /** To the decimetre. */
  static Length length(double m) {
    return new Length(m);
  }
}
