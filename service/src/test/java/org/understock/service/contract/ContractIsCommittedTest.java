package org.understock.service.contract;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.understock.service.RunningService;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.dataformat.yaml.YAMLMapper;

/**
 * The contract that the service publishes is the one in {@code api-spec/openapi.yaml}. After a
 * change that is meant, refresh the file with {@code mvn -pl service -am test
 * -Dtest=ContractIsCommittedTest -Dcontract.write=true -Dsurefire.failIfNoSpecifiedTests=false}.
 */
class ContractIsCommittedTest extends RunningService {
  private static final Path FILE = Path.of("../api-spec/openapi.yaml");
  private static final List<String> TOP =
      List.of("openapi", "info", "servers", "tags", "paths", "components");

  @Test
  void the_published_contract_is_the_committed_one() throws Exception {
    JsonNode published =
        JsonMapper.shared()
            .readTree(given().get("/v3/api-docs").then().statusCode(200).extract().asString());
    if (Boolean.getBoolean("contract.write"))
      Files.writeString(
          FILE, YAMLMapper.builder().build().writeValueAsString(sorted(published, true)));
    JsonNode committed = YAMLMapper.builder().build().readTree(Files.readString(FILE));
    List<String> differences = new ArrayList<>();
    compare(
        "#",
        JsonMapper.shared().readTree(JsonMapper.shared().writeValueAsString(committed)),
        published,
        differences);
    assertThat(differences)
        .as(
            "differences between api-spec/openapi.yaml and the running service; the class comment says how to refresh the file")
        .isEmpty();
  }

  @Test
  void every_operation_is_described() {
    JsonNode published = JsonMapper.shared().readTree(given().get("/v3/api-docs").asString());
    assertThat(published.get("openapi").asString()).startsWith("3.1");
    Set<String> ids = new TreeSet<>();
    published
        .get("paths")
        .forEach(
            path ->
                path.forEach(
                    operation -> {
                      assertThat(operation.path("summary").asString())
                          .as(operation.path("operationId").asString())
                          .isNotBlank();
                      assertThat(operation.get("tags").size()).isEqualTo(1);
                      assertThat(ids.add(operation.get("operationId").asString())).isTrue();
                      assertThat(operation.get("responses").propertyNames())
                          .as(operation.get("operationId").asString())
                          .anyMatch(status -> status.startsWith("4"));
                    }));
    assertThat(ids).hasSizeGreaterThan(10);
  }

  /** Objects with their keys in order (the document's own sections first), arrays as they are. */
  private static Object sorted(JsonNode node, boolean top) {
    if (node.isObject()) {
      Map<String, Object> map = top ? new java.util.LinkedHashMap<>() : new TreeMap<>();
      if (top) for (String key : TOP) if (node.has(key)) map.put(key, sorted(node.get(key), false));
      node.properties()
          .forEach(
              entry -> map.computeIfAbsent(entry.getKey(), key -> sorted(entry.getValue(), false)));
      return map;
    }
    if (node.isArray()) {
      List<Object> list = new ArrayList<>();
      node.forEach(item -> list.add(sorted(item, false)));
      return list;
    }
    return JsonMapper.shared().convertValue(node, Object.class);
  }

  private static void compare(
      String pointer, JsonNode committed, JsonNode published, List<String> differences) {
    if (differences.size() > 20) return;
    if (committed.isObject() && published.isObject()) {
      Set<String> keys = new TreeSet<>(committed.propertyNames());
      keys.addAll(published.propertyNames());
      for (String key : keys) {
        String at = pointer + "/" + key.replace("~", "~0").replace("/", "~1");
        if (!committed.has(key)) differences.add(at + " is not in the file");
        else if (!published.has(key)) differences.add(at + " is only in the file");
        else compare(at, committed.get(key), published.get(key), differences);
      }
    } else if (committed.isArray() && published.isArray() && committed.size() == published.size()) {
      for (int i = 0; i < committed.size(); i++)
        compare(pointer + "/" + i, committed.get(i), published.get(i), differences);
    } else if (committed.isNumber() && published.isNumber()
        ? committed.asDouble() != published.asDouble()
        : !committed.equals(published)) {
      differences.add(pointer + ": file " + cut(committed) + ", service " + cut(published));
    }
  }

  private static String cut(JsonNode node) {
    String text = node.toString();
    return text.length() > 80 ? text.substring(0, 80) + "…" : text;
  }
}
