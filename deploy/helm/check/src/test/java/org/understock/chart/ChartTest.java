package org.understock.chart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.marcnuri.helm.DryRun;
import com.marcnuri.helm.Helm;
import com.marcnuri.helm.InstallCommand;
import com.marcnuri.helm.LintResult;
import com.marcnuri.helm.TemplateCommand;
import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.yaml.snakeyaml.Yaml;

/**
 * Holds the chart to Helm itself, whose code runs here as a native library: its strict lint, what
 * it renders, and what the chart must refuse. What is rendered is left in {@code target/rendered},
 * where {@code deploy/helm/check/run} holds it to Kubernetes' own schemas.
 */
class ChartTest {
  private static final Path CHECK = Path.of("").toAbsolutePath();
  private static final Path CHART = CHECK.resolveSibling("understock");
  private static final Path RENDERED = CHECK.resolve("target/rendered");
  private static final String KUBERNETES = "1.30.0";

  @TempDir Path folder;

  @ParameterizedTest
  @ValueSource(strings = {"plain", "all-on"})
  void passesHelmsStrictLint(String values) throws IOException {
    LintResult lint = new Helm(chartWith(values)).lint().strict().call();
    assertThat(lint.isFailed()).as(String.join("\n", lint.getMessages())).isFalse();
    assertThat(lint.getMessages()).noneMatch(m -> m.contains("[WARNING]") || m.contains("[ERROR]"));
  }

  @ParameterizedTest
  @ValueSource(strings = {"plain", "all-on"})
  void renders(String values) throws IOException {
    String manifests = template(hooksAsManifests(), values).call();
    Files.createDirectories(RENDERED);
    Files.writeString(RENDERED.resolve(values + ".yaml"), manifests);
    assertThat(parsed(manifests))
        .extracting(m -> m.get("kind"))
        .contains("Deployment", "Service", "ServiceAccount", "NetworkPolicy", "Job");
  }

  /** The migrations are no part of the release: Helm waits for them before it changes a pod. */
  @ParameterizedTest
  @ValueSource(strings = {"plain", "all-on"})
  void keepsTheMigrationsAHook(String values) {
    assertThat(parsed(template(CHART, values).call()))
        .extracting(m -> m.get("kind"))
        .contains("Deployment")
        .doesNotContain("Job");
  }

  /** A migration that lands on a machine of another kind than the service never ends well. */
  @Test
  void runsTheMigrationsWhereTheServiceMayRun() throws IOException {
    List<Map<String, Object>> manifests = parsed(template(hooksAsManifests(), "all-on").call());
    Map<String, Object> service = pod(manifests, "Deployment");
    Map<String, Object> migrations = pod(manifests, "Job");
    for (String where :
        List.of("nodeSelector", "tolerations", "affinity", "priorityClassName", "imagePullSecrets"))
      assertThat(migrations.get(where)).as(where).isNotNull().isEqualTo(service.get(where));
  }

  @ParameterizedTest
  @CsvSource({"plain, port-forward", "all-on, https://orchard.example.org/v1/crops"})
  void tellsWhoInstallsItHowToAsk(String values, String how) {
    String told = install(values).call().getOutput();
    assertThat(told).contains("STATUS: pending-install", how, "/v1/crops");
  }

  @Test
  void asksForWhatHasNoDefault() {
    assertThatThrownBy(() -> new Helm(CHART).template().withKubeVersion(KUBERNETES).call())
        .hasMessageContainingAll(
            "/image/repository", "/database/url", "/database/secret/name", "/tokens/issuer");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          plain  | database: {url: localhost}                            | /database/url
          plain  | replica: 3                                            | replica
          plain  | networkPolicy: {scraper: []}                          | scraper
          plain  | env: {SPRING_DATASOURCE_PASSWORD: secret}             | SPRING_DATASOURCE_PASSWORD
          plain  | migrations: {secret: {name: ""}}                      | migrations.secret.name
          plain  | ingress: {enabled: true}                              | ingress.hosts
          plain  | autoscaling: {enabled: true, maxReplicas: 1}          | autoscaling.maxReplicas
          plain  | drainSeconds: 40                                      | terminationGracePeriodSeconds
          all-on | networkPolicy: {scrapers: []}                         | networkPolicy.scrapers
          """)
  void refusesWhatWouldNotRun(String values, String more, String named) throws IOException {
    Path changed = Files.writeString(folder.resolve("more.yaml"), more);
    assertThatThrownBy(() -> template(CHART, values).withValuesFile(changed).call())
        .hasMessageContaining(named);
  }

  private static TemplateCommand template(Path chart, String values) {
    return new Helm(chart)
        .template()
        .withName("orchard")
        .withNamespace("trees")
        .withKubeVersion(KUBERNETES)
        .withValuesFile(CHECK.resolve(values + ".yaml"));
  }

  private static InstallCommand install(String values) {
    return new Helm(CHART)
        .install()
        .withName("orchard")
        .withNamespace("trees")
        .withKubeVersion(KUBERNETES)
        .withValuesFile(CHECK.resolve(values + ".yaml"))
        .clientOnly()
        .dryRun()
        .withDryRunOption(DryRun.CLIENT);
  }

  private static List<Map<String, Object>> parsed(String manifests) {
    return StreamSupport.stream(new Yaml().loadAll(manifests).spliterator(), false)
        .filter(Objects::nonNull)
        .<Map<String, Object>>map(ChartTest::map)
        .toList();
  }

  private static Map<String, Object> pod(List<Map<String, Object>> manifests, String kind) {
    Map<String, Object> found =
        manifests.stream().filter(m -> kind.equals(m.get("kind"))).findFirst().orElseThrow();
    return map(map(map(found.get("spec")).get("template")).get("spec"));
  }

  private Path copy() throws IOException {
    Path copy = folder.resolve("understock");
    try (Stream<Path> files = Files.walk(CHART)) {
      for (Path file : (Iterable<Path>) files::iterator) {
        Files.copy(file, copy.resolve(CHART.relativize(file).toString()));
      }
    }
    return copy;
  }

  /** The library's rendering leaves hooks out: in this copy they are none. */
  private Path hooksAsManifests() throws IOException {
    Path copy = copy();
    Path job = copy.resolve("templates/migrations.yaml");
    String hook = "    helm.sh/hook: pre-install,pre-upgrade\n";
    String text = Files.readString(job);
    assertThat(text).contains(hook);
    Files.writeString(job, text.replace(hook, ""));
    return copy;
  }

  /** The library's lint takes no values: a copy of the chart has them as its defaults. */
  private Path chartWith(String values) throws IOException {
    Path copy = copy();
    Yaml yaml = new Yaml();
    Map<String, Object> all = map(yaml.load(Files.readString(CHART.resolve("values.yaml"))));
    Map<String, Object> given =
        map(yaml.load(new StringReader(Files.readString(CHECK.resolve(values + ".yaml")))));
    Files.writeString(copy.resolve("values.yaml"), yaml.dump(merged(all, given)));
    return copy;
  }

  private static Map<String, Object> merged(Map<String, Object> under, Map<String, Object> over) {
    Map<String, Object> merged = new LinkedHashMap<>(under);
    over.forEach(
        (key, value) ->
            merged.merge(
                key,
                value,
                (a, b) -> a instanceof Map && b instanceof Map ? merged(map(a), map(b)) : b));
    return merged;
  }

  @SuppressWarnings("unchecked")
  private static Map<String, Object> map(Object yaml) {
    return (Map<String, Object>) yaml;
  }
}
