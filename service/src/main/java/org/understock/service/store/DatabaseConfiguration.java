package org.understock.service.store;

import java.nio.file.Path;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.output.ValidateResult;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.boot.flyway.autoconfigure.FlywayMigrationStrategy;
import org.springframework.boot.jdbc.autoconfigure.JdbcConnectionDetails;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Conditional;
import org.springframework.context.annotation.Configuration;

/** Brings the embedded server when no database is configured, and settles who migrates. */
@Configuration(proxyBeanMethods = false)
class DatabaseConfiguration {
  @Bean
  @Conditional(EmbeddedDatabaseUsed.class)
  JdbcConnectionDetails embeddedDatabase(
      @Value("${understock.home:${user.home}/.understock}") Path home) {
    return EmbeddedDatabase.start(home.toAbsolutePath());
  }

  /**
   * With {@code understock.migrate=false} the schema is only looked at: whoever may change it has
   * migrated before, and this process need not be allowed to.
   */
  @Bean
  FlywayMigrationStrategy schema(@Value("${understock.migrate:true}") boolean migrate) {
    return flyway -> {
      if (migrate) flyway.migrate();
      else check(flyway);
    };
  }

  private static void check(Flyway flyway) {
    // A later schema than ours is no fault: while versions are exchanged, old and new run together.
    ValidateResult result = flyway.validateWithResult();
    if (result.validationSuccessful) return;
    throw new IllegalStateException(
        "the schema of the database is not what this version needs, and understock.migrate=false: run the migrations first ("
            + result.getAllErrorMessages().strip()
            + ")");
  }
}
