package org.understock.wording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.MonthDay;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class WordsTest {
  private static final Path WORDS = Path.of("src/main/resources/org/understock/wording/words");
  private static final List<Path> SOURCES =
      List.of(Path.of("src/main/java"), Path.of("../service/src/main/java"));
  private static final Path SERVICE = Path.of("../service/src/main/java/org/understock/service");
  private static final List<Path> WORDED =
      List.of(
          Path.of("src/main/java/org/understock/advice"),
          Path.of("src/main/java/org/understock/pollination"),
          Path.of("src/main/java/org/understock/wording"),
          SERVICE.resolve("card"),
          SERVICE.resolve("climate"),
          SERVICE.resolve("drawing"),
          SERVICE.resolve("pollination"));
  private static final Pattern LITERAL = Pattern.compile("\"([^\"\\\\]*+(?:\\\\.[^\"\\\\]*+)*+)\"");

  @Test
  void every_language_has_every_sentence_and_tells_the_same_values() {
    assertThat(Words.in(Language.SPANISH).keys()).isEqualTo(Words.ENGLISH.keys());
  }

  @Test
  void no_key_stands_twice_in_a_file() throws IOException {
    for (Path file : files(WORDS, ".properties")) {
      List<String> keys =
          Files.readAllLines(file).stream()
              .filter(line -> line.contains("=") && !line.startsWith("#"))
              .map(line -> line.substring(0, line.indexOf('=')))
              .toList();
      assertThat(keys).as(file.toString()).doesNotHaveDuplicates();
    }
  }

  /** A key is named whole in the sources, or a literal there is its beginning up to a dot. */
  @Test
  void no_sentence_is_left_that_nothing_says() {
    Set<String> literals = new TreeSet<>();
    for (Path folder : SOURCES)
      for (Path file : files(folder, ".java")) literals.addAll(literals(code(file)));
    assertThat(Words.ENGLISH.keys().keySet())
        .allMatch(
            key ->
                literals.contains(key)
                    || literals.stream().anyMatch(l -> l.endsWith(".") && key.startsWith(l)));
  }

  /**
   * What advice, pollination and cards say stands in the files of words. Names of draws and of
   * series of alleles are not said, and refusals and the contract are in English.
   */
  @Test
  void no_sentence_stands_in_the_code() {
    List<String> found = new ArrayList<>();
    for (Path room : WORDED) {
      for (Path file : files(room, ".java")) {
        if (file.getFileName().toString().matches(".*(Request|Response|Controller|Csv)\\.java"))
          continue;
        for (String statement : code(file).split("[;{}]")) {
          if (statement.matches(
              "(?s).*(Refus|Exception|refused\\(|Draws\\.|String NAME|toString|String FONT|STYLE).*"))
            continue;
          for (String literal : literals(statement))
            if (literal.matches("(?s).*[A-Za-z]{2,} [a-z]+ [a-z]+.*")
                && !literal.equals("pear low numbers")) found.add(file + ": " + literal);
        }
      }
    }
    assertThat(found).isEmpty();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      nullValues = "-",
      value = {
        "''                      | en",
        "es                      | es",
        "es-ES, es;q=0.9, en;q=0.5 | es",
        "es-AR                   | es",
        "es-MX                   | es-419",
        "es-419                  | es-419",
        "ES-mx                   | es-419",
        "en-GB, es               | en",
        "es;q=0.2, en;q=0.8      | en",
        "fr, es;q=0.3            | es",
        "fr                      | en",
        "*                       | en",
        "es;q=0, *               | en",
        "en;q=0, *               | es",
        "es;q=0                  | en",
        "x;;q=5, es              | es",
        "q=;,,,                  | en"
      })
  void the_language_is_the_one_that_the_reader_prefers(String accepted, String tag) {
    assertThat(Language.preferred(accepted).tag()).isEqualTo(tag);
  }

  /** A header of thousands of ranges is not read to its end. */
  @Test
  void only_so_many_ranges_are_read() {
    assertThat(Language.preferred("fr,".repeat(5000) + "es")).isEqualTo(Language.ENGLISH);
  }

  /** Joining and decimal sign by the Unicode locale data; y before i- is e (usual orthography). */
  @Test
  void lists_and_figures_follow_the_language() {
    Words es = Words.in(Language.SPANISH);
    assertThat(es.all(List.of("Gala", "Idared"))).isEqualTo("Gala e Idared");
    assertThat(es.all(List.of("Fuji", "Gala", "Topaz"))).isEqualTo("Fuji, Gala y Topaz");
    assertThat(es.decimal(2.44)).isEqualTo("2,4");
    assertThat(Words.in(Language.SPANISH_WITH_POINT).decimal(2.44)).isEqualTo("2.4");
    assertThat(es.day(MonthDay.of(4, 22))).isEqualTo("22 de abril");
    assertThat(Words.ENGLISH.all(List.of("a", "b", "c"))).isEqualTo("a, b and c");
    assertThat(Words.ENGLISH.any(List.of("a", "b", "c"))).isEqualTo("a or b or c");
  }

  @Test
  void plurals_and_branches_are_chosen_by_the_value() {
    assertThat(Words.in(Language.SPANISH).say("years", "years", 1)).isEqualTo("1 año");
    assertThat(Words.in(Language.SPANISH).say("years", "years", 2000L)).isEqualTo("2000 años");
    assertThat(Words.ENGLISH.say("goal.care", "care", "low-input")).isEqualTo("Care is low input");
  }

  @Test
  void what_is_missing_is_an_error_and_no_gap_in_the_text() {
    assertThatThrownBy(() -> Words.ENGLISH.say("no.such.key"))
        .isInstanceOf(IllegalStateException.class);
    assertThatThrownBy(() -> Words.ENGLISH.say("years", "months", 1))
        .isInstanceOf(IllegalArgumentException.class);
  }

  private static List<Path> files(Path folder, String ending) {
    try (Stream<Path> walk = Files.walk(folder)) {
      return walk.filter(file -> file.toString().endsWith(ending)).sorted().toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** A source without its comments. */
  private static String code(Path file) {
    try {
      return Files.readString(file).replaceAll("(?s)/\\*.*?\\*/", "").replaceAll("//[^\n]*", "");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static Set<String> literals(String code) {
    Set<String> literals = new TreeSet<>();
    Matcher matcher = LITERAL.matcher(code);
    while (matcher.find()) literals.add(matcher.group(1));
    return literals;
  }

  @Test
  void a_kept_sentence_is_told_once_in_each_language() {
    int[] told = new int[1];
    Sentence kept =
        Sentence.kept(
            words -> {
              told[0]++;
              return words.language().tag();
            });
    for (int k = 0; k < 3; k++) {
      assertThat(kept.in(Words.ENGLISH)).isEqualTo("en");
      assertThat(kept.in(Words.in(Language.SPANISH))).isEqualTo("es");
    }
    assertThat(told[0]).isEqualTo(2);
  }
}
