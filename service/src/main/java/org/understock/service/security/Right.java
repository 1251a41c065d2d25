package org.understock.service.security;

import java.util.List;
import java.util.stream.Collectors;
import org.springframework.http.HttpMethod;

/**
 * One operation and the scopes of which a token must have any.
 *
 * @param method HTTP method; GET stands for HEAD too
 * @param path as in the operation's mapping, {@code /v1/curation/records/{id}}
 * @param anyOf the scope that is asked for first stands first
 */
record Right(HttpMethod method, String path, List<Scope> anyOf) {
  Right {
    anyOf = List.copyOf(anyOf);
    if (anyOf.isEmpty())
      throw new IllegalArgumentException(method + " " + path + " asks for no scope");
  }

  /** The scopes, for people: {@code evidence:review or evidence:admin}. */
  String scopes() {
    return anyOf.stream().map(Scope::word).collect(Collectors.joining(" or "));
  }
}
