package org.understock.evidence.reading;

import java.time.Month;
import java.time.YearMonth;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.understock.trait.Value;

/**
 * Reads ripening times as growers' lists print them: {@code Jul 10}, {@code Jun 28-Jul 12}, {@code
 * late Aug}, {@code mid to late Aug}, {@code Sep-Oct} become a day of a common year or a range of
 * days; {@code early}, {@code mid to late} without a month become a level.
 *
 * <p>A month falls into early (days 1 to 10), mid (11 to 20) and late (21 to its end); "third week"
 * is days 15 to 21, "last week" the last seven.
 */
final class SeasonWords {
  private static final Pattern SIDE =
      Pattern.compile("(early|mid|late|third|last)?\\s*(?:week of)?\\s*([a-z]{3})?\\s*(\\d{1,2})?");
  private static final Map<String, String> LEVELS =
      Map.of(
          "very early",
          "very-early",
          "early",
          "early",
          "early to mid-early",
          "early",
          "early-mid",
          "early-mid",
          "mid",
          "mid",
          "mid to late",
          "mid-late",
          "mid-late",
          "mid-late",
          "late",
          "late",
          "very late",
          "very-late");

  private SeasonWords() {}

  /** The level of the trait harvest-season that words without a month mean. */
  static Optional<Value> level(String words) {
    return Optional.ofNullable(LEVELS.get(words.toLowerCase(Locale.ROOT))).map(Value.Level::new);
  }

  /** Day or days of the year that words with a month mean. */
  static Optional<Value> days(String words) {
    String text = words.toLowerCase(Locale.ROOT).replaceFirst("^about ", "");
    String[] sides = text.split("\\s*(?:-|\\bto\\b)\\s*", -1);
    if (sides.length > 2) return Optional.empty();
    Matcher first = SIDE.matcher(sides[0]);
    Matcher last = SIDE.matcher(sides[sides.length - 1]);
    if (!first.matches() || !last.matches()) return Optional.empty();
    Month firstMonth = month(first.group(2) == null ? last.group(2) : first.group(2));
    Month lastMonth = month(last.group(2) == null ? first.group(2) : last.group(2));
    if (firstMonth == null || lastMonth == null) return Optional.empty();
    int from = day(first, firstMonth, true);
    int to = day(last, lastMonth, false);
    if (from > to || from < 1) return Optional.empty();
    return Optional.of(
        from == to ? new Value.Quantity(from) : new Value.Range((double) from, (double) to));
  }

  /** First or last day of the year of one side; 0 for a day that the month does not have. */
  private static int day(Matcher side, Month month, boolean start) {
    YearMonth days = YearMonth.of(2023, month);
    int length = days.lengthOfMonth();
    int day;
    if (side.group(3) != null) {
      day = Integer.parseInt(side.group(3));
      if (day < 1 || day > length || side.group(1) != null) return 0;
    } else {
      day =
          switch (side.group(1) == null ? "" : side.group(1)) {
            case "early" -> start ? 1 : 10;
            case "mid" -> start ? 11 : 20;
            case "late" -> start ? 21 : length;
            case "third" -> start ? 15 : 21;
            case "last" -> start ? length - 6 : length;
            default -> start ? 1 : length;
          };
    }
    return days.atDay(day).getDayOfYear();
  }

  private static @Nullable Month month(@Nullable String word) {
    if (word == null) return null;
    for (Month month : Month.values())
      if (month.name().substring(0, 3).equalsIgnoreCase(word)) return month;
    return null;
  }
}
