package org.understock.service.limits;

import org.springframework.boot.context.properties.EnableConfigurationProperties;
import org.springframework.boot.web.servlet.FilterRegistrationBean;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.web.servlet.HandlerExceptionResolver;

/**
 * The filter that counts; where it stands among the others is settled where requests are let in.
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
}
