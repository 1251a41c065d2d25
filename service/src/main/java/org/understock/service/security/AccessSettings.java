package org.understock.service.security;

import java.time.Duration;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;
import org.springframework.util.StringUtils;

/**
 * By whose tokens curators are known: {@code understock.security.*}.
 *
 * @param issuer address of the OpenID provider; a token's {@code iss} must be the same. Its keys
 *     are looked up there unless {@code key} says where
 * @param key where the public keys are: an http(s) address of a JWK set, or a file with a JWK set,
 *     a JWK or a PEM public key (RSA or EC)
 * @param audience a token's {@code aud} must name one of these
 * @param tokenLifetime how long the tokens live that are made when nothing is configured
 */
@ConfigurationProperties("understock.security")
record AccessSettings(
    @Nullable String issuer,
    @Nullable String key,
    @DefaultValue("understock") List<String> audience,
    @DefaultValue("8h") Duration tokenLifetime) {

  AccessSettings {
    issuer = StringUtils.hasText(issuer) ? issuer.strip() : null;
    key = StringUtils.hasText(key) ? key.strip() : null;
    audience = audience.stream().map(String::strip).filter(s -> !s.isEmpty()).toList();
    if (audience.isEmpty()) {
      throw new AccessFault(
          "understock.security.audience is empty, so that no token could be meant for this service.",
          "Name an audience, or leave it unset.");
    }
    if (tokenLifetime.isNegative() || tokenLifetime.isZero()) {
      throw new AccessFault(
          "understock.security.token-lifetime is " + tokenLifetime + ".",
          "Set it above zero, for example 8h.");
    }
  }

  /** Whether somebody said whose tokens are good. */
  boolean configured() {
    return issuer != null || key != null;
  }
}
