package org.understock.service;

import io.restassured.RestAssured;
import io.restassured.config.JsonConfig;
import io.restassured.config.RestAssuredConfig;
import io.restassured.path.json.config.JsonPathConfig;
import java.nio.file.Files;
import java.nio.file.Path;
import javax.sql.DataSource;
import org.junit.jupiter.api.BeforeEach;
import org.postgresql.ds.PGSimpleDataSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.test.context.DynamicPropertyRegistry;
import org.springframework.test.context.DynamicPropertySource;
import org.testcontainers.postgresql.PostgreSQLContainer;
import org.testcontainers.utility.DockerImageName;
import org.understock.migrations.Migrations;
import org.understock.migrations.ServiceRole;
import org.understock.migrations.StarterLoader;

/**
 * A test against the really running service on a real PostgreSQL: in a container when {@code
 * -Dpg.image=…} names an image (it must then be there: nothing is skipped, and nothing is fetched),
 * the embedded binaries otherwise. The log says which.
 */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
public abstract class RunningService {
  private static final String IMAGE = System.getProperty("pg.image", "");

  @LocalServerPort private int port;

  @Value("${understock.home}")
  private Path home;

  /** In a container the service itself is not the owner of its tables. */
  private static DataSource owner;

  @Autowired private DataSource database;

  @DynamicPropertySource
  static void store(DynamicPropertyRegistry properties) throws Exception {
    Path home = Files.createTempDirectory("understock-test");
    properties.add("understock.home", home::toString);
    if (IMAGE.isEmpty()) {
      System.out.println("Tests run on the embedded PostgreSQL binaries.");
      return;
    }
    System.out.println("Tests run on PostgreSQL in a container of " + IMAGE + ".");
    PostgreSQLContainer container =
        new PostgreSQLContainer(DockerImageName.parse(IMAGE).asCompatibleSubstituteFor("postgres"));
    container.withImagePullPolicy(
        image ->
            false); // a missing image fails at once; without a registry, fetching it is tried for
    // minutes
    container.start();
    properties.add("spring.datasource.url", container::getJdbcUrl);
    // As in production: the owner has migrated, and the service runs under a role that can't.
    PGSimpleDataSource migrating = new PGSimpleDataSource();
    migrating.setUrl(container.getJdbcUrl());
    migrating.setUser(container.getUsername());
    migrating.setPassword(container.getPassword());
    owner = migrating;
    Migrations.migrate(owner);
    StarterLoader.loadIfEmpty(owner);
    ServiceRole.grant(owner, "understock_service", "a password");
    properties.add("understock.migrate", () -> "false");
    properties.add("spring.datasource.username", () -> "understock_service");
    properties.add("spring.datasource.password", () -> "a password");
    // On a database that is not its own the service makes no key: it is given one.
    Path key = Tokens.makeKey(home);
    properties.add("understock.security.key", key::toString);
    properties.add("understock.security.issuer", () -> Tokens.ISSUER);
  }

  @BeforeEach
  void pointAtTheService() {
    RestAssured.port = port;
    RestAssured.config =
        RestAssuredConfig.config()
            .jsonConfig(
                JsonConfig.jsonConfig().numberReturnType(JsonPathConfig.NumberReturnType.DOUBLE));
  }

  protected int port() {
    return port;
  }

  /** All metrics, as a collector with the administrator's token reads them. */
  protected String metrics() {
    return RestAssured.given()
        .header("Authorization", "Bearer " + tokens().admin())
        .get("/actuator/prometheus")
        .then()
        .statusCode(200)
        .extract()
        .asString();
  }

  /** Makes tokens that the service takes. */
  protected Tokens tokens() {
    return Tokens.ofHome(home);
  }

  /**
   * The database as whoever owns the tables sees it, past everything that the service is held to.
   */
  protected JdbcTemplate asOwner() {
    return new JdbcTemplate(owner == null ? database : owner);
  }

  /** The service's home folder. */
  protected Path home() {
    return home;
  }
}
