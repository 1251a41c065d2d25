package org.understock.evidence.reading;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.understock.evidence.Canonical;

/** Days of a common year, counted by the calendar. */
class SeasonWordsTest {

  @ParameterizedTest(name = "{0} = {1}")
  @CsvSource({
    "Jul 10, 191",
    "about Sep 10, 253",
    "Jan 1, 1",
    "Dec 31, 365",
    "Aug, 213..243",
    "late Aug, 233..243",
    "early Jul, 182..191",
    "mid Jul, 192..201",
    "Sep-Oct, 244..304",
    "Jun 8-20, 159..171",
    "Jun 28-Jul 12, 179..193",
    "late Jun-Jul, 172..212",
    "mid to late Aug, 223..243",
    "late Aug to early Sep, 233..253",
    "third to last week of Aug, 227..243",
    "late Feb, 52..59"
  })
  void daysOfTheYear(String words, String days) {
    assertThat(SeasonWords.days(words).map(Canonical::value)).hasValue(days);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "soon",
        "Feb 30",
        "Jul 0",
        "10",
        "Oct-Sep",
        "Jul-Aug-Sep",
        "early Jul 10",
        "Xyz 3",
        "mid"
      })
  void wordsThatNameNoDay(String words) {
    assertThat(SeasonWords.days(words)).isEmpty();
  }

  @ParameterizedTest(name = "{0} = {1}")
  @CsvSource({
    "very early, very-early",
    "early, early",
    "early-mid, early-mid",
    "mid, mid",
    "mid to late, mid-late",
    "late, late"
  })
  void levels(String words, String level) {
    assertThat(SeasonWords.level(words).map(Canonical::value)).hasValue(level);
  }
}
