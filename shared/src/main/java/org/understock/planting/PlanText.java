package org.understock.planting;

import java.util.List;
import org.understock.advice.Pairing;
import org.understock.advice.Units;
import org.understock.wording.Sentence;
import org.understock.wording.Words;

/**
 * Something said of a plan, before it is known in which language and units. A value: two plans are
 * the same where they say the same.
 *
 * @param key of the sentence in the files of words
 * @param named names and values in turn, as {@link Words#say} takes them, and lengths, shares and
 *     other texts
 */
public record PlanText(String key, List<Object> named) {
  public PlanText {
    named = List.copyOf(named);
  }

  /** A length, told in the units that are asked for, to a tenth. */
  record Length(double m) {}

  /** A share of 1, told in whole per cent, or in tenths below ten. */
  record Share(double share) {}

  static PlanText of(String key, Object... named) {
    return new PlanText(key, List.of(named));
  }

  /** "Fuji on G.969". */
  public static PlanText named(Pairing pairing) {
    return of(
        "portrait.title", "variety", pairing.variety().name(), "stock", pairing.stock().name());
  }

  /** What it says. */
  public String in(Words words, Units units) {
    Object[] told = named.toArray();
    for (int k = 1; k < told.length; k += 2) {
      if (told[k] instanceof Length length) told[k] = (Sentence) w -> units.length(w, length.m());
      else if (told[k] instanceof Share share) told[k] = percent(words, share.share());
      else if (told[k] instanceof PlanText text) told[k] = text.in(words, units);
    }
    return words.say(key, told);
  }

  private static String percent(Words words, double share) {
    double percent = 100 * share;
    boolean whole = share >= 0.1 || Math.abs(percent - Math.rint(percent)) < 0.05;
    return words.decimal(percent, whole ? 0 : 1) + " %";
  }
}
