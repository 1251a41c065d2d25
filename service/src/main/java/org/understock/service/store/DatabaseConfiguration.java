package org.understock.service.store;

import java.nio.file.Path;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.boot.jdbc.autoconfigure.JdbcConnectionDetails;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Condition;
import org.springframework.context.annotation.ConditionContext;
import org.springframework.context.annotation.Conditional;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.type.AnnotatedTypeMetadata;
import org.springframework.util.StringUtils;

/** Brings the embedded server when no database is configured. */
@Configuration(proxyBeanMethods = false)
class DatabaseConfiguration {
  @Bean
  @Conditional(NoneConfigured.class)
  JdbcConnectionDetails embeddedDatabase(@Value("${understock.home:${user.home}/.understock}") Path home) {
    return EmbeddedDatabase.start(home.toAbsolutePath());
  }

  /** Holds when {@code spring.datasource.url} is absent or blank. */
  static final class NoneConfigured implements Condition {
    @Override
    public boolean matches(ConditionContext context, AnnotatedTypeMetadata metadata) {
      return !StringUtils.hasText(context.getEnvironment().getProperty("spring.datasource.url"));
    }
  }
}
