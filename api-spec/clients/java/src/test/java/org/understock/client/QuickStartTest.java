package org.understock.client;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The program of the README, against a server that replays the contract's examples. */
class QuickStartTest {
  @Test
  void asksWhatTheExampleAsksAndTellsItsAnswer() throws IOException {
    try (Replay replay = new Replay("advise/small-garden")) {
      List<String> printed = run(replay.address());

      assertThat(replay.asked).isEqualTo("POST /v1/advice");
      assertThat(replay.accepted).contains("application/json", "application/problem+json");
      assertHolds(Replay.PLAIN.readTree(replay.sent), replay.example.at("/request/body"), "");
      JsonNode first = replay.example.at("/response/body/pairings/0");
      assertThat(printed.get(0))
          .isEqualTo(
              "1. %s on %s, %.1f of 100",
              first.at("/variety/name").textValue(),
              first.at("/stock/name").textValue(),
              first.at("/score").doubleValue());
      assertThat(printed).contains("   " + first.at("/reasons/0/text").textValue());
    }
  }

  @Test
  void tellsWhatIsWrongFieldByField() throws IOException {
    try (Replay replay = new Replay("advise/out-of-range")) {
      assertThat(run(replay.address()))
          .containsExactly(
              replay.example.at("/response/body/detail").textValue(),
              "   #/site/latitude must be between -66 and 66",
              "   #/site/soil/ph must be between 3 and 10");
    }
  }

  @Test
  void aServerThatIsAwayIsNoAnswer() throws IOException {
    Replay replay = new Replay("advise/minimal");
    String address = replay.address();
    replay.close();

    assertThatThrownBy(() -> run(address)).isInstanceOf(IOException.class).hasMessage("No answer");
  }

  @Test
  void standsInTheReadme() throws IOException {
    String source =
        Files.readString(Path.of("src/test/java/org/understock/client/QuickStart.java"));

    assertThat(Files.readString(Path.of("../README.md")))
        .contains("```java\n" + source.substring(source.indexOf("import ")) + "```");
  }

  private static List<String> run(String address) throws IOException {
    ByteArrayOutputStream printed = new ByteArrayOutputStream();
    PrintStream out = System.out;
    System.setOut(new PrintStream(printed, true, StandardCharsets.UTF_8));
    try {
      QuickStart.main(new String[] {address});
    } finally {
      System.setOut(out);
    }
    return printed.toString(StandardCharsets.UTF_8).lines().toList();
  }

  /** Defaults may be sent besides; whatever the example asks has to be there as it is. */
  private static void assertHolds(JsonNode sent, JsonNode wanted, String at) {
    if (wanted.isObject()) {
      wanted
          .properties()
          .forEach(
              field ->
                  assertHolds(
                      sent.path(field.getKey()), field.getValue(), at + "/" + field.getKey()));
    } else if (wanted.isNumber()) {
      assertThat(sent.isNumber()).as(at).isTrue();
      assertThat(sent.doubleValue()).as(at).isEqualTo(wanted.doubleValue());
    } else {
      assertThat(sent).as(at).isEqualTo(wanted);
    }
  }
}
