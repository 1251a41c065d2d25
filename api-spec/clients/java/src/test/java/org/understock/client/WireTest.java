package org.understock.client;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.understock.client.api.AdviceApi;
import org.understock.client.api.CurationApi;
import org.understock.client.model.AdviceRequest;
import org.understock.client.model.PlantingPlanRequest;

/** What goes over the wire where the generator alone would get it wrong (see the build's file). */
class WireTest {
  @Test
  void answersAreReadAsUtf8OnAnyMachine() throws IOException, ApiException {
    assertThat(Charset.defaultCharset()).isNotEqualTo(StandardCharsets.UTF_8);
    try (Replay replay = new Replay("advise/spanish")) {
      String wanted = replay.example.at("/response/body/reach/text").textValue();

      assertThat(wanted).containsPattern("[áéíóúñ]");
      assertThat(
              new AdviceApi(replay.client())
                  .advise(new AdviceRequest(), "es", null)
                  .getReach()
                  .getText())
          .isEqualTo(wanted);
    }
  }

  @Test
  void aBatchGoesOutAndComesBackLineByLine() throws IOException, ApiException {
    try (Replay replay = new Replay("adviseBatch/gardens")) {
      String lines = Replay.lines(replay.example.at("/request/lines"));

      String answer = new AdviceApi(replay.client()).adviseBatch(lines, null, null, null);

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

  @Test
  void aPictureComesAsItIs() throws IOException, ApiException {
    try (Replay replay = new Replay("planPlanting/garden-with-shed")) {
      ApiClient client =
          replay.client().setRequestInterceptor(r -> r.setHeader("Accept-Language", "es"));

      String picture =
          Forms.post(client, "/v1/planting-plans", new PlantingPlanRequest(), Replay.FORM);

      assertThat(picture).isEqualTo(Replay.FORM_ANSWER);
      assertThat(replay.asked).isEqualTo("POST /v1/planting-plans");
      assertThat(replay.sentType).isEqualTo("application/json");
      assertThat(Forms.get(client, "/v1/pairings/m-9/gala?units=metric", Replay.FORM))
          .isEqualTo(Replay.FORM_ANSWER);
      assertThat(replay.asked).isEqualTo("GET /v1/pairings/m-9/gala?units=metric");
    }
  }

  @Test
  void aPictureThatIsRefusedSaysWhy() throws IOException {
    try (Replay replay = new Replay("getPairing/misspelt-stock")) {
      assertThatExceptionOfType(ApiException.class)
          .isThrownBy(() -> Forms.get(replay.client(), "/v1/pairings/m-99/gala", Replay.FORM))
          .satisfies(
              e -> {
                assertThat(e.getCode()).isEqualTo(replay.example.at("/response/status").intValue());
                assertThat(e.getResponseBody()).contains("/problems/");
              });
    }
  }
}
