package org.understock.service.security;

import java.util.Collections;
import java.util.EnumSet;
import java.util.Set;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.GrantedAuthority;

/**
 * Who acts.
 *
 * @param subject the token's subject, by which the issuer knows a person; it tells proposer and
 *     reviewer apart and stands in the audit
 * @param scopes what the token permits
 */
public record Actor(String subject, Set<Scope> scopes) {
  public Actor {
    scopes = scopes.isEmpty() ? Set.of() : Collections.unmodifiableSet(EnumSet.copyOf(scopes));
  }

  public boolean may(Scope scope) {
    return scopes.contains(scope);
  }

  /** Of a token that was found good. */
  static Actor of(Authentication authentication) {
    EnumSet<Scope> scopes = EnumSet.noneOf(Scope.class);
    for (GrantedAuthority granted : authentication.getAuthorities()) {
      String authority = granted.getAuthority();
      if (authority != null) Scope.ofAuthority(authority).ifPresent(scopes::add);
    }
    return new Actor(authentication.getName(), scopes);
  }
}
