package org.understock.service.security;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import java.time.Instant;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.boot.SpringApplication;
import org.springframework.boot.context.event.ApplicationReadyEvent;
import org.springframework.boot.jdbc.autoconfigure.JdbcConnectionDetails;
import org.springframework.boot.test.context.runner.ApplicationContextRunner;
import org.springframework.boot.test.system.CapturedOutput;
import org.springframework.boot.test.system.OutputCaptureExtension;
import org.springframework.context.ConfigurableApplicationContext;
import org.springframework.security.oauth2.jwt.BadJwtException;
import org.springframework.security.oauth2.jwt.Jwt;
import org.springframework.security.oauth2.jwt.JwtDecoder;
import org.understock.service.Tokens;
import org.understock.service.UnderstockApplication;

/** Whose tokens are good: nothing configured, something configured, and a database of one's own. */
@ExtendWith(OutputCaptureExtension.class)
class AccessTest {
  private static final Pattern LINE =
      Pattern.compile("^(evidence:(?:propose|review|admin)) token: (\\S+)$", Pattern.MULTILINE);

  @TempDir private Path home;

  private ApplicationContextRunner service(String... properties) {
    return new ApplicationContextRunner()
        .withUserConfiguration(AccessConfiguration.class)
        .withBean(JdbcConnectionDetails.class, NoDatabase::new)
        .withPropertyValues("understock.home=" + home)
        .withPropertyValues(properties);
  }

  private static void ready(ConfigurableApplicationContext context) {
    context.publishEvent(
        new ApplicationReadyEvent(new SpringApplication(), new String[0], context, Duration.ZERO));
  }

  @Test
  void with_nothing_configured_each_role_has_a_token_of_its_own_that_only_the_owner_can_read(
      CapturedOutput output) {
    service()
        .run(
            context -> {
              ready(context.getSourceApplicationContext());
              String file = Files.readString(home.resolve("access/tokens"));
              assertThat(output.getOut()).contains(file);
              Set<String> subjects = new HashSet<>();
              Matcher lines = LINE.matcher(file);
              while (lines.find()) {
                Jwt token = context.getBean(JwtDecoder.class).decode(lines.group(2));
                assertThat(token.getClaimAsString("scope")).isEqualTo(lines.group(1));
                assertThat(Duration.between(token.getIssuedAt(), token.getExpiresAt()))
                    .isEqualTo(Duration.ofHours(8));
                subjects.add(token.getSubject());
              }
              assertThat(subjects)
                  .containsExactlyInAnyOrder("local-proposer", "local-reviewer", "local-admin");
              assertThat(permissions("access")).isEqualTo("rwx------");
              assertThat(permissions("access/key.json")).isEqualTo("rw-------");
              assertThat(permissions("access/tokens")).isEqualTo("rw-------");
              assertThat(Files.list(home.resolve("access"))).hasSize(2);
            });
  }

  @Test
  void after_a_restart_the_key_is_the_same_and_the_tokens_are_new() {
    String[] first = new String[1];
    service()
        .run(
            context -> {
              ready(context.getSourceApplicationContext());
              first[0] = token(home);
            });
    service("understock.security.token-lifetime=10m")
        .run(
            context -> {
              ready(context.getSourceApplicationContext());
              JwtDecoder tokens = context.getBean(JwtDecoder.class);
              assertThat(tokens.decode(first[0]).getSubject()).isEqualTo("local-proposer");
              assertThat(token(home)).isNotEqualTo(first[0]);
              Jwt second = tokens.decode(token(home));
              assertThat(Duration.between(second.getIssuedAt(), second.getExpiresAt()))
                  .isEqualTo(Duration.ofMinutes(10));
            });
  }

  @Test
  void tokens_of_another_home_and_tokens_that_have_run_out_are_refused(@TempDir Path other) {
    LocalAccess elsewhere = LocalAccess.in(other);
    elsewhere.issue(List.of("understock"), Duration.ofHours(8), Instant.now());
    service()
        .run(
            context -> {
              JwtDecoder tokens = context.getBean(JwtDecoder.class);
              assertThatThrownBy(() -> tokens.decode(token(other)))
                  .isInstanceOf(BadJwtException.class);
              LocalAccess.in(home)
                  .issue(
                      List.of("understock"),
                      Duration.ofHours(8),
                      Instant.now().minus(Duration.ofHours(9)));
              assertThatThrownBy(() -> tokens.decode(token(home)))
                  .isInstanceOf(BadJwtException.class)
                  .hasMessageContaining("expired");
            });
  }

  @Test
  void a_key_that_others_can_read_or_that_is_damaged_is_not_used() throws IOException {
    LocalAccess.in(home);
    Path key = home.resolve("access/key.json");
    Files.setPosixFilePermissions(key, PosixFilePermissions.fromString("rw-r--r--"));
    assertThatThrownBy(() -> LocalAccess.in(home))
        .isInstanceOf(AccessFault.class)
        .hasMessageContaining("can be read");
    Files.delete(key);
    LocalAccess.in(home);
    Files.writeString(key, "{\"kty\":\"EC\"");
    assertThatThrownBy(() -> LocalAccess.in(home))
        .isInstanceOf(AccessFault.class)
        .hasMessageContaining("does not hold the key");
  }

  @Test
  void what_is_configured_goes_before_a_key_of_ones_own_also_on_the_embedded_database(
      CapturedOutput output, @TempDir Path other) {
    LocalAccess.in(other);
    for (String property :
        List.of(
            "understock.security.key=" + other.resolve("access/key.json"),
            "understock.security.issuer=https://id.example.org")) {
      service(property)
          .run(
              context -> {
                ready(context.getSourceApplicationContext());
                assertThat(context).hasNotFailed().doesNotHaveBean(LocalAccess.class);
                assertThat(output.getOut()).doesNotContain(" token: ");
                assertThat(home.resolve("access")).doesNotExist();
              });
    }
    service("understock.security.key=" + other.resolve("access/key.json"))
        .run(
            context ->
                assertThat(
                        context
                            .getBean(JwtDecoder.class)
                            .decode(Tokens.ofHome(other).proposer())
                            .getSubject())
                    .isEqualTo("test-proposer"));
  }

  @Test
  void a_database_of_ones_own_is_enough_with_an_issuer_or_a_key() {
    service(
            "spring.datasource.url=jdbc:postgresql://localhost:1/none",
            "understock.security.issuer=https://id.example.org")
        .run(context -> assertThat(context).hasNotFailed().hasSingleBean(JwtDecoder.class));
    service("spring.datasource.url=jdbc:postgresql://localhost:1/none")
        .run(context -> assertThat(context).hasFailed());
    service(
            "spring.datasource.url=jdbc:postgresql://localhost:1/none",
            "understock.security.issuer= ")
        .run(context -> assertThat(context).hasFailed());
    service("understock.security.key=/no/such/file")
        .run(
            context ->
                assertThat(context)
                    .getFailure()
                    .isInstanceOf(AccessFault.class)
                    .hasMessageContaining("/no/such/file"));
    service("understock.security.audience=").run(context -> assertThat(context).hasFailed());
    service("understock.security.token-lifetime=0s")
        .run(context -> assertThat(context).hasFailed());
  }

  /** As a process of its own, to see what an operator sees. */
  @Test
  void on_a_database_of_ones_own_without_issuer_or_key_the_process_says_what_to_set_and_ends()
      throws Exception {
    Path log = home.resolve("log");
    ProcessBuilder builder =
        new ProcessBuilder(
                ProcessHandle.current().info().command().orElseThrow(),
                "-cp",
                System.getProperty("java.class.path"),
                UnderstockApplication.class.getName(),
                "--server.port=0",
                "--understock.home=" + home.resolve("unused"))
            .redirectErrorStream(true)
            .redirectOutput(log.toFile());
    builder.environment().put("SPRING_DATASOURCE_URL", "jdbc:postgresql://localhost:1/none");
    builder.environment().keySet().removeIf(name -> name.startsWith("UNDERSTOCK_SECURITY"));
    Process process = builder.start();
    try {
      assertThat(process.waitFor(120, TimeUnit.SECONDS)).isTrue();
    } finally {
      process.destroyForcibly();
    }
    String said = Files.readString(log);
    assertThat(process.exitValue()).as(said).isEqualTo(1);
    assertThat(said)
        .contains(
            "APPLICATION FAILED TO START", "UNDERSTOCK_SECURITY_ISSUER", "UNDERSTOCK_SECURITY_KEY")
        .doesNotContain("\tat ")
        .doesNotContain("Connection")
        .doesNotContain(" token: ")
        .doesNotContain("Tomcat");
    assertThat(home.resolve("unused")).doesNotExist();
  }

  private static final class NoDatabase implements JdbcConnectionDetails {
    @Override
    public String getUsername() {
      return "nobody";
    }

    @Override
    public String getPassword() {
      return "";
    }

    @Override
    public String getJdbcUrl() {
      return "jdbc:none";
    }
  }

  private String permissions(String file) throws IOException {
    return PosixFilePermissions.toString(Files.getPosixFilePermissions(home.resolve(file)));
  }

  private static String token(Path home) throws IOException {
    Matcher line = LINE.matcher(Files.readString(home.resolve("access/tokens")));
    assertThat(line.find()).isTrue();
    return line.group(2);
  }
}
