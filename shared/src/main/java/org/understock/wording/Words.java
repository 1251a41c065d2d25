package org.understock.wording;

import com.ibm.icu.text.DecimalFormatSymbols;
import com.ibm.icu.text.ListFormatter;
import com.ibm.icu.text.PluralRules;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.time.Month;
import java.time.MonthDay;
import java.time.format.TextStyle;
import java.util.Collection;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Properties;
import java.util.Set;
import org.understock.site.Word;

/**
 * All sentences of one language. Read once for each language, immutable, safe for many threads.
 *
 * <p>The files lie in {@code words/<language>/<topic>.properties}, UTF-8, one whole sentence a
 * line: {@code key=sentence}, in the syntax of ICU's message formats with named values.
 */
public final class Words {
  /** Files of a language, by topic. */
  static final List<String> TOPICS =
      List.of(
          "plants",
          "criteria",
          "advice",
          "cautions",
          "pollination",
          "portrait",
          "card",
          "chill",
          "charts",
          "planting");

  /** Below it a tenth is told from the next by its binary digits alone. */
  private static final double PLAIN = 1e8;

  private static final Map<Language, Words> ALL = all();

  /** What nothing else was asked for. */
  public static final Words ENGLISH = in(Language.ENGLISH);

  private final Language language;
  private final Map<String, Phrase> phrases;
  private final ListFormatter all;
  private final ListFormatter any;
  private final char decimalSign;

  private Words(Language language, Map<String, Phrase> phrases) {
    this.language = language;
    this.phrases = phrases;
    all = list(language, ListFormatter.Type.AND);
    any = list(language, ListFormatter.Type.OR);
    decimalSign = DecimalFormatSymbols.getInstance(language.locale()).getDecimalSeparator();
  }

  /** The words of a language. */
  public static Words in(Language language) {
    return Objects.requireNonNull(ALL.get(language));
  }

  public Language language() {
    return language;
  }

  /**
   * A sentence.
   *
   * @param key its key
   * @param named names and values in turn. A text stands as it is; a {@link Sentence} is told in
   *     the same language; a {@link Word} stands for its slug; whole numbers are written plainly,
   *     and others with one digit behind the decimal sign
   */
  public String say(String key, Object... named) {
    Phrase phrase = phrases.get(key);
    if (phrase == null) throw new IllegalStateException("no words for " + key + " in " + language);
    StringBuilder text = new StringBuilder(160);
    phrase.tell(new Told(key, named), text);
    return text.toString();
  }

  /** "a", "a and b", "a, b and c". */
  public String all(Collection<String> things) {
    return all.format(things);
  }

  /** "a", "a or b", "a or b or c". */
  public String any(List<String> things) {
    return inTurn(any, things);
  }

  /** "a", "a and b", "a and b and c". */
  public String each(List<String> things) {
    return inTurn(all, things);
  }

  /** "a", "a or b", "a, b or c". */
  public String either(Collection<String> things) {
    return any.format(things);
  }

  /** To one digit behind the decimal sign. */
  public String decimal(double x) {
    double tenths = Math.abs(x) * 10;
    double tie = Math.abs(tenths - Math.floor(tenths) - 0.5);
    if (!(tenths < PLAIN) || tie < 1e-6) return decimal(x, 1); // by its decimal digits
    long rounded = Math.round(tenths);
    return (x < 0 && rounded > 0 ? "-" : "") + rounded / 10 + decimalSign + rounded % 10;
  }

  /** To so many digits behind the decimal sign. */
  public String decimal(double x, int digits) {
    return written(BigDecimal.valueOf(x).setScale(digits, RoundingMode.HALF_UP));
  }

  /** A decimal number with the digits that it has. */
  public String written(BigDecimal x) {
    return x.toPlainString().replace('.', decimalSign);
  }

  /** A day and its month, such as "22 April". */
  public String day(MonthDay date) {
    return say("day", "day", date.getDayOfMonth(), "month", month(date.getMonth()));
  }

  /** A month within a sentence, such as "April" or "abril". */
  public String month(Month month) {
    return month.getDisplayName(TextStyle.FULL, language.locale());
  }

  /** A month under an axis, such as "Apr" or "abr". */
  public String shortMonth(Month month) {
    return month.getDisplayName(TextStyle.SHORT_STANDALONE, language.locale());
  }

  /** To the nearest whole number. */
  public static String whole(double x) {
    return String.valueOf(Math.round(x));
  }

  /** A clause as the beginning of a sentence. */
  public static String capital(String clause) {
    return Character.toUpperCase(clause.charAt(0)) + clause.substring(1);
  }

  /** A label within a sentence. */
  public static String within(String label) {
    return Character.toLowerCase(label.charAt(0)) + label.substring(1);
  }

  /** Keys of all sentences, with the names of their values. */
  Map<String, Set<String>> keys() {
    Map<String, Set<String>> keys = new HashMap<>();
    phrases.forEach((key, phrase) -> keys.put(key, phrase.names()));
    return keys;
  }

  private static String inTurn(ListFormatter pair, List<String> things) {
    String text = things.isEmpty() ? "" : things.get(0);
    for (int k = 1; k < things.size(); k++) text = pair.format(text, things.get(k));
    return text;
  }

  private static ListFormatter list(Language language, ListFormatter.Type type) {
    return ListFormatter.getInstance(language.locale(), type, ListFormatter.Width.WIDE);
  }

  private static Map<Language, Words> all() {
    Map<String, Map<String, Phrase>> read = new HashMap<>();
    Map<Language, Words> all = new EnumMap<>(Language.class);
    for (Language language : Language.values())
      all.put(
          language,
          new Words(
              language, read.computeIfAbsent(language.folder(), folder -> phrases(language))));
    return all;
  }

  private static Map<String, Phrase> phrases(Language language) {
    PluralRules plurals = PluralRules.forLocale(language.locale());
    Map<String, Phrase> phrases = new HashMap<>();
    for (String topic : TOPICS) {
      String file = "words/" + language.folder() + "/" + topic + ".properties";
      file(file)
          .forEach(
              (key, pattern) -> {
                try {
                  Phrase phrase = new Phrase((String) pattern, plurals);
                  if (phrases.put((String) key, phrase) != null)
                    throw new IllegalArgumentException("stands twice");
                } catch (RuntimeException broken) {
                  throw new IllegalStateException(file + ": " + key, broken);
                }
              });
    }
    return Map.copyOf(phrases);
  }

  private static Properties file(String name) {
    Properties properties = new Properties();
    try (InputStream in = Words.class.getResourceAsStream(name)) {
      if (in == null) throw new IllegalStateException("resource " + name + " is missing");
      properties.load(new InputStreamReader(in, StandardCharsets.UTF_8));
    } catch (IOException broken) {
      throw new UncheckedIOException(broken);
    }
    return properties;
  }

  private final class Told implements Phrase.Values {
    private final String key;
    private final Object[] named;

    Told(String key, Object[] named) {
      this.key = key;
      this.named = named;
    }

    @Override
    public String text(String name) {
      Object value = value(name);
      if (value instanceof String text) return text;
      if (value instanceof Sentence sentence) return sentence.in(Words.this);
      if (value instanceof Word word) return word.id();
      if (value instanceof Double number) return decimal(number);
      if (value instanceof Long || value instanceof Integer || value instanceof Boolean)
        return value.toString();
      throw new IllegalArgumentException(key + ": " + name + " is a " + value.getClass());
    }

    @Override
    public double number(String name) {
      return ((Number) value(name)).doubleValue();
    }

    private Object value(String name) {
      for (int k = 0; k < named.length; k += 2) if (named[k].equals(name)) return named[k + 1];
      throw new IllegalArgumentException(key + " wants " + name);
    }
  }
}
