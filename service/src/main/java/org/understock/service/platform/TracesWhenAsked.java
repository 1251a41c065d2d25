package org.understock.service.platform;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.autoconfigure.AutoConfigurationImportFilter;
import org.springframework.boot.autoconfigure.AutoConfigurationMetadata;
import org.springframework.context.EnvironmentAware;
import org.springframework.core.env.Environment;
import org.springframework.util.StringUtils;

/**
 * Sets up traces only where an endpoint takes them ({@code
 * management.opentelemetry.tracing.export.otlp.endpoint}): otherwise nothing of them is loaded, and
 * neither start nor request pays for what nobody reads. Made by Spring from its class name.
 */
public final class TracesWhenAsked implements AutoConfigurationImportFilter, EnvironmentAware {
  static final String ENDPOINT = "management.opentelemetry.tracing.export.otlp.endpoint";
  private static final List<String> OF_TRACES =
      List.of(
          "org.springframework.boot.opentelemetry.",
          "org.springframework.boot.micrometer.tracing.");

  private boolean asked;

  @Override
  public void setEnvironment(Environment environment) {
    asked = StringUtils.hasText(environment.getProperty(ENDPOINT));
  }

  @Override
  public boolean[] match(@Nullable String[] candidates, AutoConfigurationMetadata metadata) {
    boolean[] wanted = new boolean[candidates.length];
    for (int i = 0; i < candidates.length; i++) {
      String candidate = candidates[i];
      wanted[i] = asked || candidate == null || OF_TRACES.stream().noneMatch(candidate::startsWith);
    }
    return wanted;
  }
}
