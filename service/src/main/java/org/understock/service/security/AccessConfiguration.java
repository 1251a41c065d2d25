package org.understock.service.security;

import java.nio.file.Path;
import java.time.Instant;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.beans.factory.config.BeanFactoryPostProcessor;
import org.springframework.boot.context.event.ApplicationReadyEvent;
import org.springframework.boot.context.properties.EnableConfigurationProperties;
import org.springframework.boot.context.properties.bind.Binder;
import org.springframework.boot.jdbc.autoconfigure.JdbcConnectionDetails;
import org.springframework.context.ApplicationListener;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Condition;
import org.springframework.context.annotation.ConditionContext;
import org.springframework.context.annotation.Conditional;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.env.Environment;
import org.springframework.core.type.AnnotatedTypeMetadata;
import org.springframework.security.oauth2.jwt.JwtDecoder;
import org.understock.service.store.EmbeddedDatabaseUsed;

/**
 * Whose tokens are good: of the configured issuer or key; on the embedded database with nothing
 * configured, the service's own.
 */
@Configuration(proxyBeanMethods = false)
@EnableConfigurationProperties(AccessSettings.class)
class AccessConfiguration {
  private static final Logger LOG = LoggerFactory.getLogger(AccessConfiguration.class);

  /**
   * Before anything is started: a service that others' data depends on is never left with keys of
   * its own making.
   */
  @Bean
  static BeanFactoryPostProcessor accessIsConfigured(Environment environment) {
    return beans -> {
      AccessSettings settings = settings(environment);
      String key = settings.key();
      if (key != null && !TokenRules.isAddress(key)) PublicKeys.at(key);
      if (settings.configured() || EmbeddedDatabaseUsed.in(environment)) return;
      throw new AccessFault(
          "The database is configured (SPRING_DATASOURCE_URL), but not whose tokens let curators in.",
          "Set UNDERSTOCK_SECURITY_ISSUER to the address of your OpenID provider, or UNDERSTOCK_SECURITY_KEY to a file with its public key (PEM or"
              + " JWK set) or the http(s) address of its JWK set. Without a database of your own, on the embedded one, the service makes a key and"
              + " tokens by itself.");
    };
  }

  private static AccessSettings settings(Environment environment) {
    return Binder.get(environment).bindOrCreate("understock.security", AccessSettings.class);
  }

  /** Needs the database, because that makes sure that no other process uses the home. */
  @Bean
  @Conditional(NothingConfigured.class)
  LocalAccess localAccess(
      @Value("${understock.home:${user.home}/.understock}") Path home,
      JdbcConnectionDetails lockedHome) {
    return LocalAccess.in(home.toAbsolutePath());
  }

  @Bean
  JwtDecoder tokens(AccessSettings settings, ObjectProvider<LocalAccess> local) {
    LocalAccess own = local.getIfAvailable();
    return own == null
        ? TokenRules.configured(settings)
        : TokenRules.of(own.publicKeys(), LocalAccess.ISSUER, settings.audience());
  }

  /** Last of all at a start, so that who waits for the tokens finds a service that answers. */
  @Bean
  ApplicationListener<ApplicationReadyEvent> tokensPrinted(
      AccessSettings settings, ObjectProvider<LocalAccess> local) {
    return ready ->
        local.ifAvailable(
            own -> {
              Instant now = Instant.now();
              own.issue(settings.audience(), settings.tokenLifetime(), now)
                  .forEach(System.out::println); // plain lines, for scripts to find
              LOG.info(
                  "The tokens above are for curation on this machine, good until {}; they are also in {}",
                  now.plus(settings.tokenLifetime()),
                  own.tokensFile());
            });
  }

  /**
   * Holds when the service has to be its own issuer: on the embedded database, and nobody said
   * whose tokens are good.
   */
  static final class NothingConfigured implements Condition {
    @Override
    public boolean matches(ConditionContext context, AnnotatedTypeMetadata metadata) {
      return EmbeddedDatabaseUsed.in(context.getEnvironment())
          && !settings(context.getEnvironment()).configured();
    }
  }
}
