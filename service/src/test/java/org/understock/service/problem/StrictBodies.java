package org.understock.service.problem;

import java.util.List;
import org.springframework.mock.web.MockHttpServletRequest;
import org.springframework.validation.beanvalidation.LocalValidatorFactoryBean;
import org.springframework.web.context.request.RequestContextHolder;
import org.springframework.web.context.request.ServletRequestAttributes;

/** The service's reader of JSON without the service. */
public final class StrictBodies {
  private StrictBodies() {}

  /** Reads on the thread that made it. */
  public static JsonBodies make() {
    RequestContextHolder.setRequestAttributes(
        new ServletRequestAttributes(new MockHttpServletRequest()));
    StrictConfiguration strict = new StrictConfiguration();
    LocalValidatorFactoryBean validator = new LocalValidatorFactoryBean();
    validator.afterPropertiesSet();
    return new JsonBodies(
        strict.jsonMapperBuilder(List.of(strict.strictness())).build(), validator);
  }
}
