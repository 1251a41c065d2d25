package org.understock.service.platform;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.understock.service.RunningService;

/** The dashboard and the alerts ask for metrics that the service has, by labels that these have. */
class MonitoringFilesTest extends RunningService {
  private static final Path FOLDER = Path.of("../deploy/monitoring");

  /** The expressions, one a line in JSON; in YAML on the key's line or indented under it. */
  private static final Pattern EXPRESSION =
      Pattern.compile(
          "\"expr\": *\"((?:[^\"\\\\]|\\\\.)*)\"|expr: *(?:\\|\\n((?: {10,}.*\\n)+)|(.+))");

  private static final Pattern METRIC =
      Pattern.compile("\\b([a-z]+(?:_[a-z]+)+)\\b(?=\\s*(?:\\{([^}]*)}|\\[|\\)|$| [<>=*/+-]))");
  private static final Pattern LABEL = Pattern.compile("([a-z_]+)\\s*(?:=~|!~|!=|=)");

  /** Put on every series by whoever collects them. */
  private static final Set<String> COLLECTORS = Set.of("job", "instance");

  @ParameterizedTest
  @ValueSource(strings = {"grafana-dashboard.json", "alerts.yaml"})
  void asks_for_what_is_there(String file) throws IOException {
    given()
        .contentType("application/json")
        .body("{\"crop\": \"apple\", \"limit\": 1}")
        .post("/v1/advice")
        .then()
        .statusCode(200);
    System.gc(); // pauses are told from the first on
    Set<String> asked = asked(Files.readString(FOLDER.resolve(file)));
    assertThat(asked).as("metrics in " + file).hasSizeGreaterThanOrEqualTo(6);
    await()
        .atMost(Duration.ofMinutes(2))
        .untilAsserted(() -> assertThat(served()).as(file).containsAll(asked));
  }

  /** Names of metrics, each label that it is asked by as {@code name{label}}. */
  private static Set<String> asked(String file) {
    Set<String> asked = new TreeSet<>();
    for (Matcher found = EXPRESSION.matcher(file); found.find(); ) {
      String expression = found.group(1) != null ? found.group(1) : found.group(2);
      if (expression == null) expression = found.group(3);
      for (Matcher metric = METRIC.matcher(expression.replace("\\\"", "\"")); metric.find(); ) {
        asked.add(metric.group(1));
        if (metric.group(2) == null) continue;
        for (Matcher label = LABEL.matcher(metric.group(2)); label.find(); )
          if (!COLLECTORS.contains(label.group(1)))
            asked.add(metric.group(1) + "{" + label.group(1) + "}");
      }
    }
    return asked;
  }

  private Set<String> served() {
    return metrics()
        .lines()
        .filter(line -> !line.startsWith("#"))
        .flatMap(
            line -> {
              String name = line.split("[{ ]", 2)[0];
              Set<String> series = new TreeSet<>(Set.of(name));
              for (Matcher label = LABEL.matcher(line.split("} ", 2)[0]); label.find(); )
                series.add(name + "{" + label.group(1) + "}");
              return series.stream();
            })
        .collect(Collectors.toSet());
  }
}
