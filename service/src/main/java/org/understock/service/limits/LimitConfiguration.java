package org.understock.service.limits;

import java.time.Duration;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.boot.context.properties.EnableConfigurationProperties;
import org.springframework.boot.tomcat.servlet.TomcatServletWebServerFactory;
import org.springframework.boot.web.server.WebServerFactoryCustomizer;
import org.springframework.boot.web.servlet.FilterRegistrationBean;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.util.unit.DataSize;
import org.springframework.web.servlet.HandlerExceptionResolver;

/**
 * The filter that counts, whose place among the others is settled where requests are let in; and
 * what the server itself does about senders who take their time.
 */
@Configuration(proxyBeanMethods = false)
@EnableConfigurationProperties(LimitSettings.class)
class LimitConfiguration {
  @Bean
  RateLimit rateLimit(LimitSettings settings, HandlerExceptionResolver handlerExceptionResolver) {
    return new RateLimit(settings, handlerExceptionResolver);
  }

  /** It stands in the chains of security, and not a second time before them. */
  @Bean
  FilterRegistrationBean<RateLimit> rateLimitNotByItself(RateLimit filter) {
    FilterRegistrationBean<RateLimit> registration = new FilterRegistrationBean<>(filter);
    registration.setEnabled(false);
    return registration;
  }

  @Bean
  WebServerFactoryCustomizer<TomcatServletWebServerFactory> slowSenders(
      @Value("${understock.header-time:10s}") Duration time,
      @Value("${understock.half-headers:1000}") int halfHeaders,
      @Value("${server.tomcat.max-swallow-size:2MB}") DataSize restOfBody,
      Places places) {
    return factory -> {
      factory.addEngineValves(new RestOfBody(places, restOfBody.toBytes()));
      factory.setProtocol(TimedHeaders.class.getName());
      factory.addConnectorCustomizers(
          connector -> {
            if (connector.getProtocolHandler() instanceof TimedHeaders timed)
              timed.limitTo(time, halfHeaders);
          });
    };
  }
}
