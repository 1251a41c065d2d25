package org.understock.service.security;

import com.nimbusds.jose.jwk.JWK;
import com.nimbusds.jose.jwk.JWKMatcher;
import com.nimbusds.jose.jwk.JWKSelector;
import com.nimbusds.jose.jwk.JWKSet;
import com.nimbusds.jose.jwk.source.JWKSource;
import com.nimbusds.jose.proc.SecurityContext;
import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.springframework.security.oauth2.core.DelegatingOAuth2TokenValidator;
import org.springframework.security.oauth2.core.OAuth2TokenValidator;
import org.springframework.security.oauth2.jose.jws.SignatureAlgorithm;
import org.springframework.security.oauth2.jwt.Jwt;
import org.springframework.security.oauth2.jwt.JwtClaimNames;
import org.springframework.security.oauth2.jwt.JwtClaimValidator;
import org.springframework.security.oauth2.jwt.JwtDecoder;
import org.springframework.security.oauth2.jwt.JwtDecoderInitializationException;
import org.springframework.security.oauth2.jwt.JwtException;
import org.springframework.security.oauth2.jwt.JwtIssuerValidator;
import org.springframework.security.oauth2.jwt.JwtTimestampValidator;
import org.springframework.security.oauth2.jwt.JwtTypeValidator;
import org.springframework.security.oauth2.jwt.NimbusJwtDecoder;
import org.springframework.security.oauth2.jwt.SupplierJwtDecoder;

/**
 * What a good token is: signed by a known key with an asymmetric algorithm, of the issuer, meant
 * for this service, in its time, with an end, and of somebody. Symmetric algorithms and {@code
 * none} are never taken, so that a public key can't pass for a secret.
 */
final class TokenRules {
  private static final int LONGEST_SUBJECT = 255; // OpenID Connect Core 1.0, section 2
  private static final Set<SignatureAlgorithm> ASYMMETRIC = EnumSet.allOf(SignatureAlgorithm.class);

  private TokenRules() {}

  /**
   * As configured. Nothing is fetched before the first token comes: the service starts while its
   * issuer is away.
   */
  static JwtDecoder configured(AccessSettings settings) {
    OAuth2TokenValidator<Jwt> rules = rules(settings.issuer(), settings.audience());
    String key = settings.key();
    if (key != null && !isAddress(key)) return of(PublicKeys.at(key), rules);
    if (key != null) {
      return with(
          NimbusJwtDecoder.withJwkSetUri(key)
              .jwsAlgorithms(taken -> taken.addAll(ASYMMETRIC))
              .validateType(false)
              .build(),
          rules);
    }
    String issuer = settings.issuer();
    if (issuer == null) throw new IllegalStateException("neither issuer nor key");
    SupplierJwtDecoder discovering =
        new SupplierJwtDecoder(
            () ->
                with(
                    NimbusJwtDecoder.withIssuerLocation(issuer)
                        .jwsAlgorithms(taken -> taken.addAll(ASYMMETRIC))
                        .validateType(false)
                        .build(),
                    rules));
    return token -> {
      try {
        return discovering.decode(token);
      } catch (JwtDecoderInitializationException e) {
        throw new JwtException(
            "the issuer's metadata can't be fetched", e); // the issuer's fault, not the token's
      }
    };
  }

  /** Signed by one of the keys. */
  static JwtDecoder of(JWKSet keys, @Nullable String issuer, List<String> audience) {
    return of(keys, rules(issuer, audience));
  }

  private static JwtDecoder of(JWKSet keys, OAuth2TokenValidator<Jwt> rules) {
    JWKSource<SecurityContext> source =
        (selector, context) -> {
          List<JWK> named = selector.select(keys);
          if (!named.isEmpty()) return named;
          // A key from a PEM file has no id: it is tried whatever id the token names.
          JWKMatcher nameless =
              new JWKMatcher.Builder(selector.getMatcher()).keyIDs((Set<String>) null).build();
          return new JWKSelector(nameless)
              .select(keys).stream().filter(key -> key.getKeyID() == null).toList();
        };
    return with(
        NimbusJwtDecoder.withJwkSource(source)
            .jwsAlgorithms(taken -> taken.addAll(ASYMMETRIC))
            .build(),
        rules);
  }

  private static NimbusJwtDecoder with(NimbusJwtDecoder decoder, OAuth2TokenValidator<Jwt> rules) {
    decoder.setJwtValidator(rules);
    return decoder;
  }

  static boolean isAddress(String key) {
    return key.startsWith("https://") || key.startsWith("http://");
  }

  private static OAuth2TokenValidator<Jwt> rules(@Nullable String issuer, List<String> audience) {
    List<OAuth2TokenValidator<Jwt>> rules = new ArrayList<>();
    JwtTypeValidator type =
        new JwtTypeValidator(
            "JWT", "at+jwt"); // an access token, RFC 9068, or one that doesn't say what it is
    type.setAllowEmpty(true);
    rules.add(type);
    JwtTimestampValidator time =
        new JwtTimestampValidator(); // with a minute for clocks that differ
    time.setAllowEmptyExpiryClaim(false);
    rules.add(time);
    rules.add(
        new JwtClaimValidator<Collection<String>>(
            JwtClaimNames.AUD,
            named -> named != null && named.stream().anyMatch(audience::contains)));
    rules.add(
        new JwtClaimValidator<String>(
            JwtClaimNames.SUB,
            subject ->
                subject != null && !subject.isBlank() && subject.length() <= LONGEST_SUBJECT));
    if (issuer != null) rules.add(new JwtIssuerValidator(issuer));
    return new DelegatingOAuth2TokenValidator<>(rules);
  }
}
