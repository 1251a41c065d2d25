package org.understock.service.reading;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import java.util.function.Function;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.context.request.ServletWebRequest;
import org.springframework.web.util.UriComponentsBuilder;
import org.understock.advice.Adviser;
import org.understock.service.platform.Cursor;
import org.understock.service.platform.Page;
import org.understock.service.store.Snapshot;
import org.understock.wording.Language;

/**
 * One read of the evidence: what it sees, and the headers of its answer. The tag names revision,
 * engine and request, not the bytes, so an unchanged answer is known before it is made; it is weak,
 * because the same content may go out compressed.
 */
public final class Reading {
  private static final String CACHE = "public, max-age=300, stale-while-revalidate=3600";

  private final ServletWebRequest request;
  private final Snapshot snapshot;
  private final String list;
  private final @Nullable String after;
  private final String secret;
  private final @Nullable Language language;

  Reading(
      ServletWebRequest request,
      Snapshot snapshot,
      String list,
      @Nullable String after,
      String secret) {
    this(request, snapshot, list, after, secret, null);
  }

  private Reading(
      ServletWebRequest request,
      Snapshot snapshot,
      String list,
      @Nullable String after,
      String secret,
      @Nullable Language language) {
    this.request = request;
    this.snapshot = snapshot;
    this.list = list;
    this.after = after;
    this.secret = secret;
    this.language = language;
  }

  public Snapshot snapshot() {
    return snapshot;
  }

  /** The same read, answered in a language: told in its headers, and part of its tag. */
  public Reading in(Language language) {
    return new Reading(request, snapshot, list, after, secret, language);
  }

  /**
   * The answer, or 304 without making it when the client has it already (null: Spring then sends
   * what {@code checkNotModified} has set).
   */
  public <T> @Nullable ResponseEntity<T> answer(Supplier<T> body) {
    return unchanged("") ? null : ResponseEntity.ok(body.get());
  }

  /**
   * The answer in one of several forms. Each has a tag of its own: a client that holds the page
   * must not take it for the picture.
   */
  public @Nullable ResponseEntity<?> answer(MediaType form, Supplier<ResponseEntity<?>> answer) {
    return unchanged("-" + form.getSubtype().replace("+xml", "")) ? null : answer.get();
  }

  /** One page of a list that is at hand. */
  public <S, T> @Nullable ResponseEntity<Page<T>> page(
      int limit, List<S> all, Function<S, String> key, Function<S, T> view) {
    if (unchanged("")) return null;
    return page(limit, all.iterator(), all.size(), key, view);
  }

  /** One page of a list that is made while it is walked, and therefore not counted. */
  public <S, T> @Nullable ResponseEntity<Page<T>> walk(
      int limit, Iterator<S> all, Function<S, String> key, Function<S, T> view) {
    if (unchanged("")) return null;
    return page(limit, all, null, key, view);
  }

  private <S, T> ResponseEntity<Page<T>> page(
      int limit,
      Iterator<S> all,
      @Nullable Integer total,
      Function<S, String> key,
      Function<S, T> view) {
    if (after != null)
      while (all.hasNext()
          && !key.apply(all.next()).equals(after)) {} // skip what was given already
    List<T> items = new ArrayList<>();
    String last = "";
    while (all.hasNext() && items.size() < limit) {
      S item = all.next();
      last = key.apply(item);
      items.add(view.apply(item));
    }
    String next =
        all.hasNext() ? new Cursor(snapshot.revision().number(), list, last).written(secret) : null;
    ResponseEntity.BodyBuilder answer = ResponseEntity.ok();
    answer.header(HttpHeaders.LINK, link(null, "first"));
    if (next != null) answer.header(HttpHeaders.LINK, link(next, "next"));
    return answer.body(new Page<>(items, total, next));
  }

  private boolean unchanged(String form) {
    String query = Objects.requireNonNullElse(request.getRequest().getQueryString(), "");
    UUID asked =
        UUID.nameUUIDFromBytes(
            (request.getRequest().getRequestURI() + "?" + query).getBytes(StandardCharsets.UTF_8));
    var response = Objects.requireNonNull(request.getResponse());
    response.setHeader(HttpHeaders.CACHE_CONTROL, CACHE);
    // Added, as the origin stands there already: a kept answer to one page must not be given to
    // another.
    response.addHeader(HttpHeaders.VARY, "Accept, Accept-Encoding");
    if (language != null) {
      response.addHeader(HttpHeaders.VARY, HttpHeaders.ACCEPT_LANGUAGE);
      response.setHeader(HttpHeaders.CONTENT_LANGUAGE, language.tag());
    }
    return request.checkNotModified(
        "W/\"r"
            + snapshot.revision().number()
            + "-"
            + Adviser.ENGINE_VERSION
            + "-"
            + asked.toString().substring(0, 13)
            + form
            + (language == null ? "" : "-" + language.tag())
            + "\"");
  }

  private String link(@Nullable String cursor, String relation) {
    UriComponentsBuilder uri = UriComponentsBuilder.fromPath(request.getRequest().getRequestURI());
    request
        .getParameterMap()
        .forEach(
            (name, values) -> {
              if (!name.equals("cursor")) uri.queryParam(name, "{" + name + "}");
            });
    if (cursor != null) uri.queryParam("cursor", cursor);
    java.util.Map<String, Object> values = new java.util.HashMap<>();
    request.getParameterMap().forEach((name, given) -> values.put(name, given[0]));
    return "<" + uri.encode().buildAndExpand(values).toUriString() + ">; rel=\"" + relation + "\"";
  }
}
