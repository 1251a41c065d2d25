package org.understock.service.security;

import java.util.List;
import java.util.stream.Stream;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.boot.actuate.autoconfigure.web.server.ManagementPortType;
import org.springframework.boot.security.autoconfigure.actuate.web.servlet.EndpointRequest;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.annotation.Order;
import org.springframework.core.env.Environment;
import org.springframework.security.authorization.AuthorizationDecision;
import org.springframework.security.config.ObjectPostProcessor;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.config.annotation.web.configurers.AbstractHttpConfigurer;
import org.springframework.security.config.http.SessionCreationPolicy;
import org.springframework.security.core.Authentication;
import org.springframework.security.oauth2.server.resource.web.authentication.BearerTokenAuthenticationFilter;
import org.springframework.security.web.SecurityFilterChain;
import org.springframework.security.web.header.writers.ReferrerPolicyHeaderWriter.ReferrerPolicy;
import org.springframework.security.web.servlet.util.matcher.PathPatternRequestMatcher;
import org.springframework.security.web.util.matcher.OrRequestMatcher;
import org.springframework.security.web.util.matcher.RequestMatcher;
import org.springframework.web.filter.CorsFilter;
import org.springframework.web.servlet.HandlerExceptionResolver;
import org.understock.service.limits.RateLimit;

/**
 * Two doors. Curation, and the management endpoints but health, ask for a token. Everything else is
 * open to all and does not look at tokens at all: a storefront whose token has run out still gets
 * its advice.
 */
@Configuration(proxyBeanMethods = false)
class SecurityConfiguration {
  private static final String CLOSED = "default-src 'none'; frame-ancestors 'none'";
  private static final String BROWSER_OF_THE_CONTRACT =
      "default-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data:;"
          + " frame-ancestors 'none'";

  /** Pages of ours: what they load comes from here, and nothing of it is written into them. */
  private static final String PAGE =
      "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:;"
          + " connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

  @Bean
  @Order(1)
  SecurityFilterChain guarded(
      HttpSecurity http, SecurityProblems problems, RateLimit limit, Environment environment)
      throws Exception {
    // On a port of their own, which the operator does not let the world reach, metrics are open:
    // who collects them has no token.
    RequestMatcher management =
        ManagementPortType.get(environment) == ManagementPortType.DIFFERENT
            ? EndpointRequest.toAnyEndpoint().excluding("health", "prometheus")
            : EndpointRequest.toAnyEndpoint().excluding("health");
    stateless(http)
        .securityMatcher(
            new OrRequestMatcher(
                PathPatternRequestMatcher.pathPattern(CurationRights.ROOT + "/**"), management))
        .authorizeHttpRequests(
            requests ->
                requests
                    .requestMatchers(management)
                    .hasAuthority(Scope.ADMIN.authority())
                    .anyRequest()
                    .access(
                        (who, asked) ->
                            new AuthorizationDecision(
                                CurationRights.of(asked.getRequest())
                                    .map(right -> permits(right, who.get()))
                                    .orElse(false))))
        .oauth2ResourceServer(
            server ->
                server
                    .jwt(jwt -> {})
                    .authenticationEntryPoint(problems)
                    .withObjectPostProcessor(answering(problems)))
        .exceptionHandling(e -> e.authenticationEntryPoint(problems).accessDeniedHandler(problems))
        // Before tokens are looked at: guessing them is counted too.
        .addFilterBefore(limit, BearerTokenAuthenticationFilter.class)
        .headers(
            headers ->
                headers
                    .contentSecurityPolicy(policy -> policy.policyDirectives(CLOSED))
                    .referrerPolicy(policy -> policy.policy(ReferrerPolicy.NO_REFERRER)));
    return http.build();
  }

  /**
   * The filter's own way is to throw when the issuer is away, which would be told as a fault of
   * ours.
   */
  private static ObjectPostProcessor<BearerTokenAuthenticationFilter> answering(
      SecurityProblems problems) {
    return new ObjectPostProcessor<>() {
      @Override
      public <F extends BearerTokenAuthenticationFilter> F postProcess(F filter) {
        filter.setAuthenticationFailureHandler(problems);
        return filter;
      }
    };
  }

  private static boolean permits(Right right, Authentication who) {
    return who.isAuthenticated()
        && right.anyOf().stream()
            .anyMatch(
                scope ->
                    who.getAuthorities().stream()
                        .anyMatch(granted -> scope.authority().equals(granted.getAuthority())));
  }

  @Bean
  @Order(2)
  SecurityFilterChain open(
      HttpSecurity http,
      @Value("${understock.cors.allowed-origins:}") List<String> origins,
      HandlerExceptionResolver handlerExceptionResolver,
      RateLimit limit)
      throws Exception {
    RequestMatcher browser = PathPatternRequestMatcher.pathPattern("/swagger-ui/**");
    RequestMatcher page =
        new OrRequestMatcher(
            Stream.of("/", "/*.html", "/demo/**", "/docs/**", "/desk/**", "/widget/**")
                .<RequestMatcher>map(PathPatternRequestMatcher::pathPattern)
                .toList());
    stateless(http)
        .anonymous(AbstractHttpConfigurer::disable)
        .securityContext(AbstractHttpConfigurer::disable)
        .servletApi(AbstractHttpConfigurer::disable)
        .exceptionHandling(AbstractHttpConfigurer::disable)
        .addFilter(PublicCors.filter(origins, handlerExceptionResolver))
        // After the headers that let a page of another origin read why it is sent away.
        .addFilterAfter(limit, CorsFilter.class)
        .headers(
            headers ->
                headers
                    .cacheControl(
                        cache ->
                            cache.disable()) // every answer says itself how long it may be kept
                    .addHeaderWriter(
                        (request, response) -> {
                          if (response.containsHeader("Content-Security-Policy")) return;
                          response.setHeader(
                              "Content-Security-Policy",
                              browser.matches(request)
                                  ? BROWSER_OF_THE_CONTRACT
                                  : page.matches(request) ? PAGE : CLOSED);
                        })
                    .referrerPolicy(policy -> policy.policy(ReferrerPolicy.NO_REFERRER)));
    return http.build();
  }

  /** No session, no cookie, hence no forged request from another page; no login page, no logout. */
  private static HttpSecurity stateless(HttpSecurity http) throws Exception {
    return http.sessionManagement(
            session -> session.sessionCreationPolicy(SessionCreationPolicy.STATELESS))
        .csrf(AbstractHttpConfigurer::disable)
        .logout(AbstractHttpConfigurer::disable)
        .requestCache(AbstractHttpConfigurer::disable);
  }
}
