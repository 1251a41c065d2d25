package org.understock.service.curation;

import jakarta.servlet.http.HttpServletRequest;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.http.CacheControl;
import org.springframework.http.HttpHeaders;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Component;
import org.springframework.web.util.UriComponentsBuilder;
import org.understock.service.platform.Cursor;
import org.understock.service.platform.Page;
import org.understock.service.problem.ProblemError;
import org.understock.service.problem.ProblemException;
import org.understock.service.problem.ProblemType;
import org.understock.service.store.Snapshots;

/**
 * Pages of curators' lists. They are read from the database as they stand; what is added later
 * comes later in the walk.
 */
@Component
class Lists {
  static final String CURSOR = "The `next` of the page before; filters must stay the same.";

  private final Snapshots snapshots;

  Lists(Snapshots snapshots) {
    this.snapshots = snapshots;
  }

  /** The key after which the page begins; empty at the beginning. */
  Optional<String> after(HttpServletRequest request, @Nullable String cursor) {
    if (cursor == null) return Optional.empty();
    return Optional.of(
        Cursor.read(cursor, list(request), secret())
            .map(Cursor::after)
            .orElseThrow(
                () ->
                    ProblemException.of(
                        ProblemType.INVALID_REQUEST,
                        "The parameter 'cursor' can't be used.",
                        List.of(
                            new ProblemError(
                                null,
                                "cursor",
                                "is not a cursor of this list; begin again without it",
                                null,
                                cursor,
                                null)))));
  }

  /**
   * A page.
   *
   * @param found one item more than the limit where there are more
   * @param key what the next page begins after
   */
  <S, T> ResponseEntity<Page<T>> page(
      HttpServletRequest request,
      List<S> found,
      int limit,
      Function<S, String> key,
      Function<S, T> view) {
    List<S> items = found.subList(0, Math.min(limit, found.size()));
    String next =
        found.size() <= limit
            ? null
            : new Cursor(0, list(request), key.apply(items.get(items.size() - 1)))
                .written(secret());
    ResponseEntity.BodyBuilder answer =
        ResponseEntity.ok().cacheControl(CacheControl.noStore().cachePrivate());
    answer.header(HttpHeaders.LINK, link(request, null, "first"));
    if (next != null) answer.header(HttpHeaders.LINK, link(request, next, "next"));
    return answer.body(new Page<>(items.stream().map(view).toList(), null, next));
  }

  private static String link(HttpServletRequest request, @Nullable String cursor, String relation) {
    UriComponentsBuilder uri = UriComponentsBuilder.fromPath(request.getRequestURI());
    TreeMap<String, Object> values = new TreeMap<>();
    request
        .getParameterMap()
        .forEach(
            (name, given) -> {
              if (name.equals("cursor")) return;
              uri.queryParam(name, "{" + name + "}");
              values.put(name, given[0]);
            });
    if (cursor != null) uri.queryParam("cursor", cursor);
    return "<" + uri.encode().buildAndExpand(values).toUriString() + ">; rel=\"" + relation + "\"";
  }

  private static String list(HttpServletRequest request) {
    return request.getRequestURI()
        + request.getParameterMap().entrySet().stream()
            .filter(e -> !e.getKey().equals("cursor") && !e.getKey().equals("limit"))
            .sorted(Comparator.comparing(java.util.Map.Entry::getKey))
            .map(e -> "&" + e.getKey() + "=" + e.getValue()[0])
            .collect(Collectors.joining());
  }

  private String secret() {
    return snapshots.revisions().get(snapshots.revisions().size() - 1).digest();
  }
}
