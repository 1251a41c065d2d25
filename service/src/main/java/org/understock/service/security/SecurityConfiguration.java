package org.understock.service.security;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.beans.factory.config.BeanFactoryPostProcessor;
import org.springframework.boot.context.event.ApplicationReadyEvent;
import org.springframework.boot.context.properties.EnableConfigurationProperties;
import org.springframework.boot.context.properties.bind.Binder;
import org.springframework.boot.jdbc.autoconfigure.JdbcConnectionDetails;
import org.springframework.boot.security.autoconfigure.actuate.web.servlet.EndpointRequest;
import org.springframework.context.ApplicationListener;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Condition;
import org.springframework.context.annotation.ConditionContext;
import org.springframework.context.annotation.Conditional;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.annotation.Order;
import org.springframework.core.env.Environment;
import org.springframework.core.type.AnnotatedTypeMetadata;
import org.springframework.security.authorization.AuthorizationDecision;
import org.springframework.security.config.ObjectPostProcessor;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.config.annotation.web.configurers.AbstractHttpConfigurer;
import org.springframework.security.config.http.SessionCreationPolicy;
import org.springframework.security.core.Authentication;
import org.springframework.security.oauth2.jwt.JwtDecoder;
import org.springframework.security.oauth2.server.resource.web.authentication.BearerTokenAuthenticationFilter;
import org.springframework.security.web.SecurityFilterChain;
import org.springframework.security.web.header.writers.ReferrerPolicyHeaderWriter.ReferrerPolicy;
import org.springframework.security.web.servlet.util.matcher.PathPatternRequestMatcher;
import org.springframework.security.web.util.matcher.OrRequestMatcher;
import org.springframework.security.web.util.matcher.RequestMatcher;
import org.springframework.web.servlet.HandlerExceptionResolver;
import org.understock.service.store.EmbeddedDatabaseUsed;

/**
 * Two doors. Curation, and the management endpoints but health, ask for a token. Everything else is open to all and does not look at tokens at all: a storefront
 * whose token has run out still gets its advice.
 */
@Configuration(proxyBeanMethods = false)
@EnableConfigurationProperties(AccessSettings.class)
class SecurityConfiguration {
  private static final Logger LOG = LoggerFactory.getLogger(SecurityConfiguration.class);
  private static final String CLOSED = "default-src 'none'; frame-ancestors 'none'";
  private static final String BROWSER_OF_THE_CONTRACT = "default-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; frame-ancestors 'none'";

  /** Before anything is started: a service that others' data depends on is never left with keys of its own making. */
  @Bean
  static BeanFactoryPostProcessor accessIsConfigured(Environment environment) {
    return beans -> {
      AccessSettings settings = settings(environment);
      String key = settings.key();
      if (key != null && !TokenRules.isAddress(key)) PublicKeys.at(key);
      if (settings.configured() || EmbeddedDatabaseUsed.in(environment)) return;
      throw new AccessFault("The database is configured (SPRING_DATASOURCE_URL), but not whose tokens let curators in.",
          "Set UNDERSTOCK_SECURITY_ISSUER to the address of your OpenID provider, or UNDERSTOCK_SECURITY_KEY to a file with its public key (PEM or JWK set) or "
              + "the http(s) address of its JWK set. Without a database of your own, on the embedded one, the service makes a key and tokens by itself.");
    };
  }

  private static AccessSettings settings(Environment environment) {
    return Binder.get(environment).bindOrCreate("understock.security", AccessSettings.class);
  }

  /** Needs the database, because that makes sure that no other process uses the home. */
  @Bean
  @Conditional(NothingConfigured.class)
  LocalAccess localAccess(@Value("${understock.home:${user.home}/.understock}") Path home, JdbcConnectionDetails lockedHome) {
    return LocalAccess.in(home.toAbsolutePath());
  }

  @Bean
  JwtDecoder tokens(AccessSettings settings, ObjectProvider<LocalAccess> local) {
    LocalAccess own = local.getIfAvailable();
    return own == null ? TokenRules.configured(settings) : TokenRules.of(own.publicKeys(), LocalAccess.ISSUER, settings.audience());
  }

  /** Last of all at a start, so that who waits for the tokens finds a service that answers. */
  @Bean
  ApplicationListener<ApplicationReadyEvent> tokensPrinted(AccessSettings settings, ObjectProvider<LocalAccess> local) {
    return ready -> local.ifAvailable(own -> {
      Instant now = Instant.now();
      own.issue(settings.audience(), settings.tokenLifetime(), now).forEach(System.out::println); // plain lines, for scripts to find
      LOG.info("The tokens above are for curation on this machine, good until {}; they are also in {}", now.plus(settings.tokenLifetime()), own.tokensFile());
    });
  }

  @Bean
  @Order(1)
  SecurityFilterChain guarded(HttpSecurity http, SecurityProblems problems) throws Exception {
    RequestMatcher management = EndpointRequest.toAnyEndpoint().excluding("health");
    stateless(http).securityMatcher(new OrRequestMatcher(PathPatternRequestMatcher.pathPattern(CurationRights.ROOT + "/**"), management))
        .authorizeHttpRequests(requests -> requests
            .requestMatchers(management).hasAuthority(Scope.ADMIN.authority())
            .anyRequest().access((who, asked) -> new AuthorizationDecision(
                CurationRights.of(asked.getRequest()).map(right -> permits(right, who.get())).orElse(false))))
        .oauth2ResourceServer(server -> server.jwt(jwt -> {}).authenticationEntryPoint(problems)
            .withObjectPostProcessor(answering(problems)))
        .exceptionHandling(e -> e.authenticationEntryPoint(problems).accessDeniedHandler(problems))
        .headers(headers -> headers.contentSecurityPolicy(policy -> policy.policyDirectives(CLOSED))
            .referrerPolicy(policy -> policy.policy(ReferrerPolicy.NO_REFERRER)));
    return http.build();
  }

  /** The filter's own way is to throw when the issuer is away, which would be told as a fault of ours. */
  private static ObjectPostProcessor<BearerTokenAuthenticationFilter> answering(SecurityProblems problems) {
    return new ObjectPostProcessor<>() {
      @Override
      public <F extends BearerTokenAuthenticationFilter> F postProcess(F filter) {
        filter.setAuthenticationFailureHandler(problems);
        return filter;
      }
    };
  }

  private static boolean permits(Right right, Authentication who) {
    return who.isAuthenticated() && right.anyOf().stream()
        .anyMatch(scope -> who.getAuthorities().stream().anyMatch(granted -> scope.authority().equals(granted.getAuthority())));
  }

  @Bean
  @Order(2)
  SecurityFilterChain open(HttpSecurity http, @Value("${understock.cors.allowed-origins:}") List<String> origins, HandlerExceptionResolver handlerExceptionResolver)
      throws Exception {
    RequestMatcher browser = PathPatternRequestMatcher.pathPattern("/swagger-ui/**");
    stateless(http).anonymous(AbstractHttpConfigurer::disable).securityContext(AbstractHttpConfigurer::disable)
        .servletApi(AbstractHttpConfigurer::disable).exceptionHandling(AbstractHttpConfigurer::disable)
        .addFilter(PublicCors.filter(origins, handlerExceptionResolver))
        .headers(headers -> headers.cacheControl(cache -> cache.disable()) // every answer says itself how long it may be kept
            .addHeaderWriter((request, response) -> {
              if (response.containsHeader("Content-Security-Policy")) return;
              response.setHeader("Content-Security-Policy", browser.matches(request) ? BROWSER_OF_THE_CONTRACT : CLOSED);
            })
            .referrerPolicy(policy -> policy.policy(ReferrerPolicy.NO_REFERRER)));
    return http.build();
  }

  /** No session, no cookie, hence no forged request from another page; no login page, no logout. */
  private static HttpSecurity stateless(HttpSecurity http) throws Exception {
    return http.sessionManagement(session -> session.sessionCreationPolicy(SessionCreationPolicy.STATELESS)).csrf(AbstractHttpConfigurer::disable)
        .logout(AbstractHttpConfigurer::disable).requestCache(AbstractHttpConfigurer::disable);
  }

  /** Holds when the service has to be its own issuer: on the embedded database, and nobody said whose tokens are good. */
  static final class NothingConfigured implements Condition {
    @Override
    public boolean matches(ConditionContext context, AnnotatedTypeMetadata metadata) {
      return EmbeddedDatabaseUsed.in(context.getEnvironment()) && !settings(context.getEnvironment()).configured();
    }
  }
}
