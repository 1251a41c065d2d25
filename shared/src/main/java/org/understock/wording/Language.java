package org.understock.wording;

import com.ibm.icu.text.DecimalFormatSymbols;
import com.ibm.icu.util.ULocale;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * A language that answers can be worded in. Spanish is written with a decimal comma or a decimal
 * point by country (comma in Spain and most of South America, point in Mexico, Central America, the
 * Caribbean and Peru); the words are the same.
 */
public enum Language {
  ENGLISH("en", "en", Locale.UK),
  SPANISH("es", "es", Locale.forLanguageTag("es")),
  /** Spanish with a decimal point, as the Unicode locale data have it for {@code es-419}. */
  SPANISH_WITH_POINT("es-419", "es", Locale.forLanguageTag("es-419"));

  private static final int MOST_RANGES = 30;

  private final String tag;
  private final String words;
  private final Locale locale;

  Language(String tag, String words, Locale locale) {
    this.tag = tag;
    this.words = words;
    this.locale = locale;
  }

  /** Tag of BCP 47, such as {@code es}. */
  public String tag() {
    return tag;
  }

  /** The folder of the words. */
  String folder() {
    return words;
  }

  /** What lists, plurals and decimal signs follow; a list in British English has no comma more. */
  Locale locale() {
    return locale;
  }

  /**
   * The language to answer in, by the header {@code Accept-Language} (RFC 9110, section 12.5.4):
   * the one of those spoken here that the reader prefers; a range is met by any of its regions and
   * by its bare language. What cannot be read is passed over, and where nothing is met the answer
   * is English: a reader is better served by another language than by a refusal.
   *
   * @param accepted the header's value; empty when it was not sent
   */
  public static Language preferred(String accepted) {
    Map<String, Double> weights = new HashMap<>(); // by bare language, and * for all not named
    Language best = ENGLISH;
    double most = 0;
    String[] ranges = accepted.split(",", MOST_RANGES + 1);
    for (int k = 0; k < Math.min(ranges.length, MOST_RANGES); k++) {
      for (Locale.LanguageRange range : read(ranges[k])) {
        Locale wanted = Locale.forLanguageTag(range.getRange());
        weights.merge(
            range.getRange().equals("*") ? "*" : wanted.getLanguage(),
            range.getWeight(),
            Math::max);
        Optional<Language> met = meeting(wanted);
        if (met.isEmpty() || range.getWeight() <= most) continue;
        best = met.get();
        most = range.getWeight();
      }
    }
    double others = weights.getOrDefault("*", 0.0);
    if (others > most)
      for (Language language : List.of(ENGLISH, SPANISH))
        if (!weights.containsKey(language.words)) return language;
    return best;
  }

  /**
   * The language that a tag of BCP 47 names, with any region: {@code es}, {@code es-MX}.
   *
   * @return empty for a language that is not spoken here
   */
  public static Optional<Language> of(String tag) {
    return meeting(Locale.forLanguageTag(tag));
  }

  private static List<Locale.LanguageRange> read(String range) {
    try {
      return Locale.LanguageRange.parse(range.strip());
    } catch (IllegalArgumentException notARange) {
      return List.of();
    }
  }

  private static Optional<Language> meeting(Locale wanted) {
    return switch (wanted.getLanguage()) {
      case "en" -> Optional.of(ENGLISH);
      case "es" -> Optional.of(point(wanted) ? SPANISH_WITH_POINT : SPANISH);
      default -> Optional.empty();
    };
  }

  private static boolean point(Locale locale) {
    return DecimalFormatSymbols.getInstance(ULocale.forLocale(locale)).getDecimalSeparator() == '.';
  }
}
