package org.understock.client;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.understock.client.api.AdviceApi;
import org.understock.client.api.CurationApi;
import org.understock.client.model.AdviceRequest;

/** What goes over the wire where the generator alone would get it wrong (see the build's file). */
class WireTest {
  @Test
  void answersAreReadAsUtf8OnAnyMachine() throws IOException, ApiException {
    assertThat(Charset.defaultCharset()).isNotEqualTo(StandardCharsets.UTF_8);
    try (Replay replay = new Replay("advise/spanish")) {
      String wanted = replay.example.at("/response/body/reach/text").textValue();

      assertThat(wanted).containsPattern("[áéíóúñ]");
      assertThat(
              new AdviceApi(replay.client()).advise(new AdviceRequest(), "es").getReach().getText())
          .isEqualTo(wanted);
    }
  }

  @Test
  void aBatchGoesOutAndComesBackLineByLine() throws IOException, ApiException {
    try (Replay replay = new Replay("adviseBatch/gardens")) {
      String lines = Replay.lines(replay.example.at("/request/lines"));

      String answer = new AdviceApi(replay.client()).adviseBatch(lines, null, null);

      assertThat(replay.sent).isEqualTo(lines);
      assertThat(replay.sentType).isEqualTo("application/x-ndjson");
      assertThat(answer).isEqualTo(Replay.lines(replay.example.at("/response/lines")));
    }
  }

  @Test
  void aHeaderOfTheCallersOwnTakesThePlaceOfTheGeneratedOne() throws IOException, ApiException {
    try (Replay replay = new Replay("advise/minimal")) {
      new CurationApi(replay.client())
          .importFile(
              "ratings", "source_id,crop\n", null, null, Map.of("Content-Type", "text/csv"));

      assertThat(replay.asked).isEqualTo("POST /v1/curation/imports?kind=ratings");
      assertThat(replay.sentType).isEqualTo("text/csv");
      assertThat(replay.sent).isEqualTo("source_id,crop\n");
    }
  }
}
