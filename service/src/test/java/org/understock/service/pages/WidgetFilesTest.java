package org.understock.service.pages;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import java.util.zip.GZIPOutputStream;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** What the widget's files weigh, and that every text is there in both languages. */
class WidgetFilesTest {
  private static final int MOST_BYTES = 60_000;
  private static final Path FOLDER = Path.of("src/main/resources/static/widget");
  private static final JsonMapper JSON = JsonMapper.shared();

  @Test
  void isLight() throws IOException {
    int bytes = 0;
    for (Path file : files()) bytes += gzipped(Files.readAllBytes(file));
    System.out.println("The widget, both languages, weighs " + bytes + " bytes gzipped.");
    assertThat(bytes).as("bytes of the widget, each file gzipped").isBetween(1, MOST_BYTES);
  }

  @Test
  void saysEverythingInBothLanguages() throws IOException {
    Map<String, JsonNode> english = flat(messages("en"));
    Map<String, JsonNode> spanish = flat(messages("es"));
    assertThat(spanish.keySet()).isEqualTo(english.keySet());
    for (String key : english.keySet()) {
      if (key.endsWith(".match")) continue;
      assertThat(holes(spanish.get(key).asString()))
          .as("what is filled into " + key)
          .isEqualTo(holes(english.get(key).asString()));
    }
  }

  @Test
  void explainsNothingTwiceUnderOneWord() throws IOException {
    for (String language : List.of("en", "es")) {
      for (JsonNode term : messages(language).get("glossary")) {
        assertThat(Pattern.compile(term.get("match").asString()).matcher("").matches()).isFalse();
        assertThat(term.get("text").asString()).endsWith(".");
      }
    }
  }

  /** A strict page lets no markup be made of strings, and no code of text. */
  @Test
  void makesNoMarkupAndNoCodeOfStrings() throws IOException {
    Pattern forbidden =
        Pattern.compile(
            "innerHTML|outerHTML|insertAdjacentHTML|document\\.write|\\beval\\(|new Function|setAttribute\\('style'|style: '");
    for (Path file : files()) {
      if (!file.toString().endsWith(".js")) continue;
      assertThat(forbidden.matcher(Files.readString(file)).find()).as(file.toString()).isFalse();
    }
  }

  private static List<Path> files() throws IOException {
    try (Stream<Path> all = Files.walk(FOLDER)) {
      return all.filter(Files::isRegularFile).sorted().toList();
    }
  }

  private static JsonNode messages(String language) throws IOException {
    return JSON.readTree(Files.readString(FOLDER.resolve("messages/" + language + ".json")));
  }

  private static Map<String, JsonNode> flat(JsonNode messages) {
    Map<String, JsonNode> all = new TreeMap<>();
    messages
        .properties()
        .forEach(
            entry -> {
              if (entry.getValue().isString()) all.put(entry.getKey(), entry.getValue());
              else
                flat(entry.getValue())
                    .forEach((key, value) -> all.put(entry.getKey() + "." + key, value));
            });
    return all;
  }

  private static TreeSet<String> holes(String text) {
    TreeSet<String> found = new TreeSet<>();
    Matcher matcher = Pattern.compile("\\{(\\w+)}").matcher(text);
    while (matcher.find()) found.add(matcher.group(1));
    return found;
  }

  private static int gzipped(byte[] bytes) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (GZIPOutputStream gzip = new GZIPOutputStream(out)) {
      gzip.write(bytes);
    }
    return out.size();
  }
}
