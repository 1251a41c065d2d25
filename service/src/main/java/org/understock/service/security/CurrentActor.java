package org.understock.service.security;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springdoc.core.utils.SpringDocUtils;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.MethodParameter;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.security.oauth2.server.resource.authentication.JwtAuthenticationToken;
import org.springframework.web.bind.support.WebDataBinderFactory;
import org.springframework.web.context.request.NativeWebRequest;
import org.springframework.web.method.support.HandlerMethodArgumentResolver;
import org.springframework.web.method.support.ModelAndViewContainer;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;

/**
 * Hands a controller under {@code /v1/curation} who asks: as a parameter of type {@link Actor}, or
 * by {@link #get()} in what it calls.
 */
@Configuration(proxyBeanMethods = false)
public class CurrentActor implements WebMvcConfigurer, HandlerMethodArgumentResolver {
  static {
    SpringDocUtils.getConfig()
        .addRequestWrapperToIgnore(Actor.class); // not a parameter that a client sends
  }

  /**
   * Who sent the request that this thread answers.
   *
   * @throws IllegalStateException outside of a request that came with a good token: only paths
   *     under {@code /v1/curation} look at tokens
   */
  public Actor get() {
    Authentication authentication = SecurityContextHolder.getContext().getAuthentication();
    if (!(authentication instanceof JwtAuthenticationToken))
      throw new IllegalStateException("nobody is known to act: the path is open to all");
    return Actor.of(authentication);
  }

  @Override
  public void addArgumentResolvers(List<HandlerMethodArgumentResolver> resolvers) {
    resolvers.add(this);
  }

  @Override
  public boolean supportsParameter(MethodParameter parameter) {
    return parameter.getParameterType() == Actor.class;
  }

  @Override
  public Actor resolveArgument(
      MethodParameter parameter,
      @Nullable ModelAndViewContainer container,
      NativeWebRequest request,
      @Nullable WebDataBinderFactory binders) {
    return get();
  }
}
