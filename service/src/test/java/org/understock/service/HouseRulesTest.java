package org.understock.service;

import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.lang.EvaluationResult;
import java.io.IOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import javax.tools.Diagnostic;
import javax.tools.DiagnosticCollector;
import javax.tools.JavaCompiler;
import javax.tools.JavaFileObject;
import javax.tools.SimpleJavaFileObject;
import javax.tools.ToolProvider;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/**
 * Each rule of the house catches classes that break it. They are compiled here, so that they can
 * stand in the rooms that the rules speak of without the running service finding them.
 */
class HouseRulesTest {
  /** A class that breaks a rule; what it uses is written out in the body. */
  private record Wrong(HouseRules rule, String type, String body, Map<String, String> others) {
    Wrong(HouseRules rule, String type, String body) {
      this(rule, type, body, Map.of());
    }
  }

  private static final String S = "org.understock.service.";
  private static final List<Wrong> WRONG =
      List.of(
          new Wrong(
              HouseRules.THE_ENGINE_KNOWS_NO_FRAMEWORK_NO_DATABASE_AND_NO_SERVICE,
              "org.understock.trait.W",
              "class W { org.springframework.http.MediaType used; }"),
          new Wrong(
              HouseRules.THE_ENGINE_KNOWS_NO_FRAMEWORK_NO_DATABASE_AND_NO_SERVICE,
              "org.understock.growth.W",
              "class W { java.sql.Connection used; }"),
          new Wrong(
              HouseRules.THE_ENGINE_KNOWS_NO_FRAMEWORK_NO_DATABASE_AND_NO_SERVICE,
              "org.understock.advice.W",
              "class W { " + S + "store.Snapshots used; }"),
          new Wrong(
              HouseRules.THE_ENGINE_HAS_NO_CLOCK,
              "org.understock.climate.W",
              "class W { long at = System.currentTimeMillis(); }"),
          new Wrong(
              HouseRules.THE_ENGINE_HAS_NO_CLOCK,
              "org.understock.climate.W",
              "class W { long at = System.nanoTime(); }"),
          new Wrong(
              HouseRules.THE_ENGINE_HAS_NO_CLOCK,
              "org.understock.plant.W",
              "class W { Object at = java.time.LocalDate.now(); }"),
          new Wrong(
              HouseRules.THE_ENGINE_HAS_NO_CLOCK,
              "org.understock.plant.W",
              "class W { java.time.Clock used; }"),
          new Wrong(
              HouseRules.THE_MIGRATIONS_KNOW_NO_SPRING_AND_NO_SERVICE,
              "org.understock.migrations.W",
              "class W { org.springframework.http.MediaType used; }"),
          new Wrong(
              HouseRules.THE_MIGRATIONS_KNOW_NO_SPRING_AND_NO_SERVICE,
              "org.understock.migrations.W",
              "class W { " + S + "store.Snapshots used; }"),
          new Wrong(
              HouseRules.ONLY_ONE_JSON_LIBRARY_SERVES,
              S + "catalogue.W",
              "class W { com.fasterxml.jackson.databind.ObjectMapper used; }"),
          new Wrong(
              HouseRules.CONTROLLERS_KNOW_NO_DATABASE,
              S + "catalogue.W",
              "@org.springframework.web.bind.annotation.RestController class W { javax.sql.DataSource used; }"),
          new Wrong(
              HouseRules.CONTROLLERS_KNOW_NO_DATABASE,
              S + "advice.W",
              "@org.springframework.web.bind.annotation.RestController class W { org.springframework.data.repository.Repository<String, Long> used; }"),
          new Wrong(
              HouseRules.ENTITIES_DO_NOT_LEAVE_THE_STORE,
              S + "catalogue.W",
              "@jakarta.persistence.Entity class W { }"),
          new Wrong(
              HouseRules.ENTITIES_ARE_NOT_PUBLIC,
              S + "store.W",
              "@jakarta.persistence.Entity public class W { }"),
          uses(
              HouseRules.FEATURES_MEET_ONLY_THROUGH_THE_ENGINE_AND_THE_STORE,
              S + "advice.W",
              S + "catalogue.Used"),
          uses(
              HouseRules.FEATURES_MEET_ONLY_THROUGH_THE_ENGINE_AND_THE_STORE,
              S + "catalogue.W",
              S + "advice.Used"),
          uses(
              HouseRules.FEATURES_MEET_ONLY_THROUGH_THE_ENGINE_AND_THE_STORE,
              S + "curation.W",
              S + "catalogue.Used"),
          uses(
              HouseRules.FEATURES_MEET_ONLY_THROUGH_THE_ENGINE_AND_THE_STORE,
              S + "catalogue.W",
              S + "curation.Used"),
          uses(
              HouseRules.WHAT_FEATURES_STAND_ON_KNOWS_NO_FEATURE,
              S + "store.W",
              S + "catalogue.Used"),
          uses(
              HouseRules.WHAT_FEATURES_STAND_ON_KNOWS_NO_FEATURE,
              S + "platform.W",
              S + "advice.Used"),
          uses(
              HouseRules.WHAT_FEATURES_STAND_ON_KNOWS_NO_FEATURE,
              S + "problem.W",
              S + "catalogue.Used"),
          uses(
              HouseRules.WHAT_FEATURES_STAND_ON_KNOWS_NO_FEATURE,
              S + "security.W",
              S + "curation.Used"),
          uses(HouseRules.THE_CONTRACT_IS_KNOWN_TO_NOBODY, S + "catalogue.W", S + "contract.Used"),
          uses(HouseRules.THE_CONTRACT_IS_KNOWN_TO_NOBODY, S + "store.W", S + "contract.Used"),
          circle(
              HouseRules.THE_ROOMS_HAVE_NO_CYCLES,
              "org.understock.trait.W",
              "org.understock.plant.Used"),
          circle(HouseRules.THE_SERVICE_HAS_NO_CYCLES, S + "problem.W", S + "platform.Used"));

  private static Wrong uses(HouseRules rule, String type, String other) {
    return new Wrong(
        rule,
        type,
        "public class W { " + other + " used; }",
        Map.of(other, "public class Used { }"));
  }

  private static Wrong circle(HouseRules rule, String type, String other) {
    return new Wrong(
        rule,
        type,
        "public class W { " + other + " used; }",
        Map.of(other, "public class Used { " + type + " user; }"));
  }

  @TestFactory
  Stream<DynamicTest> each_rule_catches() {
    return WRONG.stream()
        .map(
            wrong ->
                DynamicTest.dynamicTest(
                    wrong.rule() + ": " + wrong.type() + " " + wrong.body(),
                    () -> {
                      EvaluationResult result = wrong.rule().rule.evaluate(compiled(wrong));
                      assertThat(result.getFailureReport().getDetails())
                          .isNotEmpty()
                          .anySatisfy(detail -> assertThat(detail).contains(wrong.type()));
                    }));
  }

  @Test
  void every_rule_is_tried() {
    Set<HouseRules> tried =
        WRONG.stream()
            .map(Wrong::rule)
            .collect(Collectors.toCollection(() -> EnumSet.noneOf(HouseRules.class)));
    assertThat(tried).containsExactly(HouseRules.values());
  }

  /**
   * What is allowed is not caught: the catches above are not the work of a rule that refuses
   * everything.
   */
  @Test
  void meeting_through_the_store_is_allowed() throws IOException {
    JavaClasses right =
        compiled(
            new Wrong(
                HouseRules.THE_SERVICE_HAS_NO_CYCLES,
                S + "advice.W",
                "public class W { " + S + "store.Used used; }",
                Map.of(
                    S + "store.Used",
                    "public class Used { org.understock.evidence.TraitBook used; }",
                    S + "catalogue.V",
                    "class V { " + S + "store.Used used; }")));
    for (HouseRules rule : HouseRules.values())
      assertThat(rule.rule.allowEmptyShould(true).evaluate(right).hasViolation())
          .as(rule.name())
          .isFalse();
  }

  private static JavaClasses compiled(Wrong wrong) throws IOException {
    Map<String, String> bodies = new TreeMap<>(wrong.others());
    bodies.put(wrong.type(), wrong.body());
    List<JavaFileObject> sources = new ArrayList<>();
    bodies.forEach((type, body) -> sources.add(new Source(type, body)));
    Path folder = Files.createTempDirectory("house-rules");
    JavaCompiler compiler = ToolProvider.getSystemJavaCompiler();
    DiagnosticCollector<JavaFileObject> said = new DiagnosticCollector<>();
    List<String> options =
        List.of(
            "-d",
            folder.toString(),
            "-proc:none",
            "-classpath",
            System.getProperty("java.class.path"));
    boolean done = compiler.getTask(null, null, said, options, null, sources).call();
    assertThat(done)
        .as(
            said.getDiagnostics().stream()
                .map((Diagnostic<?> d) -> d.getMessage(Locale.ROOT))
                .collect(Collectors.joining("\n")))
        .isTrue();
    return new ClassFileImporter().importPaths(folder);
  }

  /** A class in memory, to be compiled. */
  private static final class Source extends SimpleJavaFileObject {
    private final String text;

    Source(String type, String body) {
      super(URI.create("memory:///" + type.replace('.', '/') + ".java"), Kind.SOURCE);
      text = "package " + type.substring(0, type.lastIndexOf('.')) + ";\n" + body;
    }

    @Override
    public CharSequence getCharContent(boolean ignoreEncodingErrors) {
      return text;
    }
  }
}
