package org.understock.client;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.lang.reflect.Method;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.understock.client.api.AdviceApi;
import org.understock.client.api.CatalogueApi;
import org.understock.client.api.ClimateApi;
import org.understock.client.api.CurationApi;
import org.understock.client.api.EvidenceApi;
import org.understock.client.api.PairingsApi;
import org.understock.client.api.PlantingApi;
import org.understock.client.api.PollinationApi;
import org.understock.client.model.Advice;
import org.understock.client.model.AdviceRequest;
import org.understock.client.model.ImportOutcome;
import org.understock.client.model.Problem;

/** What the generated classes read, they write again: nothing of an answer is lost on the way. */
class ModelsTest {
  private static final ObjectMapper MAPPER = ApiClient.createDefaultObjectMapper();
  private static final List<Class<?>> OPERATIONS =
      List.of(
          AdviceApi.class,
          CatalogueApi.class,
          ClimateApi.class,
          CurationApi.class,
          EvidenceApi.class,
          PairingsApi.class,
          PlantingApi.class,
          PollinationApi.class);

  static List<Path> examples() throws IOException {
    try (Stream<Path> files = Files.walk(Replay.EXAMPLES, 2)) {
      return files.filter(ModelsTest::answersAnObject).sorted().toList();
    }
  }

  @ParameterizedTest
  @MethodSource("examples")
  void nothingIsLost(Path file) throws IOException {
    JsonNode response = Replay.PLAIN.readTree(file.toFile()).path("response");
    boolean refused = response.path("status").intValue() >= 400;
    Class<?> type = refused ? Problem.class : answerOf(file.getParent().getFileName().toString());

    Object answer = MAPPER.readValue(response.path("body").toString(), type);

    ObjectNode read = MAPPER.valueToTree(answer);
    // A file that is refused is told as a problem and as an import's outcome in one.
    if (refused && file.getParent().endsWith("importFile")) {
      Object outcome = MAPPER.readValue(response.path("body").toString(), ImportOutcome.class);
      read.setAll(MAPPER.<ObjectNode>valueToTree(outcome));
    }
    assertSame(read, response.path("body"), "");
  }

  @Test
  void aFieldOfALaterContractIsNoHindrance() throws IOException {
    Advice answer = MAPPER.readValue("{\"revision\": 7, \"ofALaterContract\": true}", Advice.class);

    assertThat(answer.getRevision()).isEqualTo(7);
  }

  @Test
  void aValueOfALaterContractIsNoHindrance() throws IOException {
    AdviceRequest read =
        MAPPER.readValue("{\"crop\": \"of-a-later-contract\"}", AdviceRequest.class);

    assertThat(read.getCrop()).isEqualTo(AdviceRequest.CropEnum.UNKNOWN_DEFAULT_OPEN_API);
  }

  private static boolean answersAnObject(Path file) {
    try {
      return Files.isRegularFile(file)
          && Replay.PLAIN.readTree(file.toFile()).at("/response/body").isObject();
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private static Class<?> answerOf(String operation) {
    return OPERATIONS.stream()
        .flatMap(operations -> Stream.of(operations.getMethods()))
        .filter(method -> method.getName().equals(operation))
        .map(Method::getReturnType)
        .findFirst()
        .orElseThrow();
  }

  private static void assertSame(JsonNode read, JsonNode wanted, String at) {
    assertThat(read.getNodeType()).as(at).isEqualTo(wanted.getNodeType());
    if (wanted.isNumber()) {
      assertThat(read.doubleValue()).as(at).isEqualTo(wanted.doubleValue());
    } else if (wanted.isContainerNode()) {
      assertThat(read).as(at).hasSameSizeAs(wanted);
      wanted
          .properties()
          .forEach(
              field ->
                  assertSame(
                      read.path(field.getKey()), field.getValue(), at + "/" + field.getKey()));
      for (int i = 0; wanted.isArray() && i < wanted.size(); i++) {
        assertSame(read.path(i), wanted.path(i), at + "/" + i);
      }
    } else {
      assertThat(read).as(at).isEqualTo(wanted);
    }
  }
}
