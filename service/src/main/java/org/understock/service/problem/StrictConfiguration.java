package org.understock.service.problem;

import java.util.List;
import org.apache.catalina.core.StandardHost;
import org.springframework.beans.factory.config.ConfigurableBeanFactory;
import org.springframework.boot.jackson.autoconfigure.JsonMapperBuilderCustomizer;
import org.springframework.boot.tomcat.servlet.TomcatServletWebServerFactory;
import org.springframework.boot.web.server.WebServerFactoryCustomizer;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.context.annotation.Scope;
import org.springframework.http.MediaType;
import org.springframework.http.converter.HttpMessageConverter;
import org.springframework.http.converter.HttpMessageConverters;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;
import tools.jackson.core.StreamReadConstraints;
import tools.jackson.core.StreamReadFeature;
import tools.jackson.core.json.JsonFactory;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.MapperFeature;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.module.SimpleModule;

/**
 * Makes the doors strict: one JSON reader with limits, no other body formats, problems even from
 * the container itself.
 */
@Configuration(proxyBeanMethods = false)
class StrictConfiguration implements WebMvcConfigurer {
  private static final int MAX_DEPTH = 64;
  private static final int MAX_NUMBER_DIGITS = 100;
  private static final int MAX_TEXT_CHARACTERS = 100_000;
  private static final int MAX_NAME_CHARACTERS = 200;

  /** Takes the place of Boot's builder, which has no room for limits. */
  @Bean
  @Scope(ConfigurableBeanFactory.SCOPE_PROTOTYPE)
  JsonMapper.Builder jsonMapperBuilder(List<JsonMapperBuilderCustomizer> customizers) {
    StreamReadConstraints limits =
        StreamReadConstraints.builder()
            .maxNestingDepth(MAX_DEPTH)
            .maxNumberLength(MAX_NUMBER_DIGITS)
            .maxStringLength(MAX_TEXT_CHARACTERS)
            .maxNameLength(MAX_NAME_CHARACTERS)
            .build();
    JsonFactory factory =
        JsonFactory.builder()
            .streamReadConstraints(limits)
            .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
            .build();
    JsonMapper.Builder builder = JsonMapper.builder(factory);
    customizers.forEach(c -> c.customize(builder));
    return builder;
  }

  @Bean
  JsonMapperBuilderCustomizer strictness() {
    return builder ->
        builder
            .enable(
                DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES,
                DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .disable(DeserializationFeature.ACCEPT_FLOAT_AS_INT)
            .disable(
                MapperFeature.ALLOW_COERCION_OF_SCALARS,
                MapperFeature.SORT_PROPERTIES_ALPHABETICALLY)
            .addHandler(new StrictJson.UnknownFields())
            .addModule(
                new SimpleModule("strict")
                    .addDeserializer(String.class, new StrictJson.WellFormedText()));
  }

  /**
   * Libraries put readers of YAML and others on the class path: such a body would pass by the rules
   * above.
   */
  @Override
  public void configureMessageConverters(HttpMessageConverters.ServerBuilder builder) {
    builder.configureMessageConvertersList(
        converters -> converters.removeIf(StrictConfiguration::isSideDoor));
  }

  private static boolean isSideDoor(HttpMessageConverter<?> converter) {
    return converter.getSupportedMediaTypes().stream()
        .map(MediaType::getSubtype)
        .anyMatch(
            t ->
                t.contains("yaml") || t.contains("cbor") || t.contains("smile") || t.equals("xml"));
  }

  @Bean
  WebServerFactoryCustomizer<TomcatServletWebServerFactory> problemsFromTomcat() {
    return factory ->
        factory.addContextCustomizers(
            context ->
                ((StandardHost) context.getParent())
                    .setErrorReportValveClass(ProblemValve.class.getName()));
  }
}
