package org.understock.service.store;

import java.nio.file.Path;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.boot.jdbc.autoconfigure.JdbcConnectionDetails;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Conditional;
import org.springframework.context.annotation.Configuration;

/** Brings the embedded server when no database is configured. */
@Configuration(proxyBeanMethods = false)
class DatabaseConfiguration {
  @Bean
  @Conditional(EmbeddedDatabaseUsed.class)
  JdbcConnectionDetails embeddedDatabase(
      @Value("${understock.home:${user.home}/.understock}") Path home) {
    return EmbeddedDatabase.start(home.toAbsolutePath());
  }
}
