package org.understock.service.security;

import static org.springframework.http.HttpMethod.GET;
import static org.springframework.http.HttpMethod.POST;
import static org.springframework.http.HttpMethod.PUT;
import static org.understock.service.security.Scope.ADMIN;
import static org.understock.service.security.Scope.PROPOSE;
import static org.understock.service.security.Scope.REVIEW;

import jakarta.servlet.http.HttpServletRequest;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.springframework.http.HttpMethod;
import org.springframework.security.web.servlet.util.matcher.PathPatternRequestMatcher;

/**
 * The one table of who may do what under {@code /v1/curation}. The door reads it, and so does the
 * contract: what is published is what is enforced. An operation that is not in the table is denied
 * to everybody.
 */
final class CurationRights {
  static final String ROOT = "/v1/curation";
  static final List<Right> ALL = all();

  private static final List<Entry> ENTRIES =
      ALL.stream()
          .map(right -> new Entry(PathPatternRequestMatcher.pathPattern(right.path()), right))
          .toList();

  private record Entry(PathPatternRequestMatcher path, Right right) {}

  private CurationRights() {}

  private static List<Right> all() {
    List<Right> rights = new ArrayList<>();
    Scope[] any = {PROPOSE, REVIEW, ADMIN};
    allow(rights, GET, "/sources", any);
    allow(rights, GET, "/sources/{id}", any);
    allow(rights, POST, "/sources", PROPOSE);
    allow(rights, GET, "/stocks", any);
    allow(rights, GET, "/stocks/{id}", any);
    allow(rights, POST, "/stocks", PROPOSE);
    allow(rights, GET, "/varieties", any);
    allow(rights, GET, "/varieties/{id}", any);
    allow(rights, POST, "/varieties", PROPOSE);
    allow(rights, GET, "/records", any);
    allow(rights, GET, "/records/{id}", any);
    allow(rights, POST, "/records", PROPOSE);
    allow(rights, PUT, "/records/{id}", PROPOSE);
    allow(rights, GET, "/imports", any);
    allow(rights, GET, "/imports/{id}", any);
    allow(rights, POST, "/imports", PROPOSE);
    allow(rights, POST, "/impact", PROPOSE, REVIEW);
    allow(rights, GET, "/reviews", any);
    allow(rights, GET, "/reviews/{id}", any);
    allow(rights, POST, "/reviews", REVIEW);
    allow(rights, GET, "/revisions/verify", any);
    allow(rights, GET, "/gaps", any);
    allow(rights, GET, "/exports", any);
    allow(rights, GET, "/exports/{kind}", any);
    allow(rights, GET, "/audit", REVIEW, ADMIN);
    return List.copyOf(rights);
  }

  private static void allow(List<Right> rights, HttpMethod method, String path, Scope... anyOf) {
    rights.add(new Right(method, ROOT + path, Arrays.asList(anyOf)));
  }

  /** The right that a request needs; empty when there is none, so that nobody may. */
  static Optional<Right> of(HttpServletRequest request) {
    HttpMethod method = method(request.getMethod());
    return ENTRIES.stream()
        .filter(e -> e.right().method().equals(method) && e.path().matches(request))
        .map(Entry::right)
        .findFirst();
  }

  /** The right of a mapped operation, whatever its path variables are called. */
  static Optional<Right> of(String method, String path) {
    return ALL.stream()
        .filter(
            right ->
                right.method().equals(method(method))
                    && nameless(right.path()).equals(nameless(path)))
        .findFirst();
  }

  private static HttpMethod method(String method) {
    return method.equals("HEAD") ? GET : HttpMethod.valueOf(method);
  }

  private static String nameless(String path) {
    return path.replaceAll("\\{[^/]*}", "{}");
  }
}
