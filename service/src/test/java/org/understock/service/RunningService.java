package org.understock.service;

import io.restassured.RestAssured;
import io.restassured.config.JsonConfig;
import io.restassured.config.RestAssuredConfig;
import io.restassured.path.json.config.JsonPathConfig;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import org.junit.jupiter.api.BeforeEach;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.test.context.DynamicPropertyRegistry;
import org.springframework.test.context.DynamicPropertySource;
import org.testcontainers.postgresql.PostgreSQLContainer;
import org.testcontainers.utility.DockerImageName;

/**
 * A test against the really running service on a real PostgreSQL: in a container when {@code -Dpg.image=…} names an image (it must then be there:
 * nothing is skipped), the embedded binaries otherwise. The log says which.
 */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
public abstract class RunningService {
  private static final String IMAGE = System.getProperty("pg.image", "");

  @LocalServerPort
  private int port;

  @DynamicPropertySource
  static void store(DynamicPropertyRegistry properties) {
    if (IMAGE.isEmpty()) {
      System.out.println("Tests run on the embedded PostgreSQL binaries.");
      String home = temporaryHome();
      properties.add("understock.home", () -> home);
      return;
    }
    System.out.println("Tests run on PostgreSQL in a container of " + IMAGE + ".");
    PostgreSQLContainer container = new PostgreSQLContainer(DockerImageName.parse(IMAGE).asCompatibleSubstituteFor("postgres"));
    container.start();
    properties.add("spring.datasource.url", container::getJdbcUrl);
    properties.add("spring.datasource.username", container::getUsername);
    properties.add("spring.datasource.password", container::getPassword);
  }

  private static String temporaryHome() {
    try {
      return Files.createTempDirectory("understock-test").toString();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @BeforeEach
  void pointAtTheService() {
    RestAssured.port = port;
    RestAssured.config = RestAssuredConfig.config().jsonConfig(JsonConfig.jsonConfig().numberReturnType(JsonPathConfig.NumberReturnType.DOUBLE));
  }

  protected int port() {
    return port;
  }
}
