package org.understock.service;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Everything that ships may be run, changed and sold by anybody, by the bill of materials that lies
 * in the jar. Where a library offers licences to choose from, one of them will do.
 */
class LicencesTest {
  /** By their SPDX names. */
  private static final Set<String> WELCOME =
      Set.of(
          "Apache-2.0",
          "MIT",
          "MIT-0",
          "BSD-2-Clause",
          "BSD-3-Clause",
          "0BSD",
          "EPL-1.0",
          "EPL-2.0",
          "CC0-1.0",
          "PostgreSQL",
          "Unicode-3.0");

  private final JsonNode components = components();

  @TestFactory
  Stream<DynamicTest> everyLibraryHasAWelcomeLicence() {
    return components
        .valueStream()
        .map(
            library ->
                DynamicTest.dynamicTest(
                    library.path("name").asString() + " " + library.path("version").asString(),
                    () ->
                        assertThat(
                                library
                                    .path("licenses")
                                    .valueStream()
                                    .map(l -> l.path("license").path("id").asString("")))
                            .anyMatch(WELCOME::contains)));
  }

  @Test
  void theBillNamesTheLibrariesThatTheServiceStandsOn() {
    assertThat(components.valueStream().map(c -> c.path("name").asString()))
        .contains("spring-boot", "hibernate-core", "postgresql", "jts-core", "fastcsv");
  }

  private static JsonNode components() {
    try (InputStream bill =
        LicencesTest.class.getResourceAsStream("/META-INF/sbom/application.cdx.json")) {
      return JsonMapper.shared().readTree(Objects.requireNonNull(bill)).path("components");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
