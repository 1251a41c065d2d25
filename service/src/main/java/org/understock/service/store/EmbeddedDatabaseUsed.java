package org.understock.service.store;

import org.springframework.context.annotation.Condition;
import org.springframework.context.annotation.ConditionContext;
import org.springframework.core.env.Environment;
import org.springframework.core.type.AnnotatedTypeMetadata;
import org.springframework.util.StringUtils;

/** Holds when no database is configured: {@code spring.datasource.url} is absent or blank. */
public final class EmbeddedDatabaseUsed implements Condition {
  @Override
  public boolean matches(ConditionContext context, AnnotatedTypeMetadata metadata) {
    return in(context.getEnvironment());
  }

  /** The same, asked elsewhere. */
  public static boolean in(Environment environment) {
    return !StringUtils.hasText(environment.getProperty("spring.datasource.url"));
  }
}
