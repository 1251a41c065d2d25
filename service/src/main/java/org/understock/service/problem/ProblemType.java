package org.understock.service.problem;

import java.util.Arrays;

/**
 * The kinds of problem, each with a page of its own under {@code /problems/}. A type's address
 * never changes.
 *
 * <p>{@link #MALFORMED_REQUEST} and {@link #INVALID_REQUEST} are one published type with two
 * statuses: 400 when a request is not what the contract's schema says, 422 when it can be read but
 * can't be meant.
 */
public enum ProblemType {
  MALFORMED_REQUEST(
      "invalid-request",
      400,
      "The request can't be used",
      "The request isn't what the contract says (status 400), or it can be read but can't be meant (status 422).",
      "Look at each entry of errors: pointer names the place in the body, parameter the query parameter, allowed what would do, nearest what was probably meant."),
  INVALID_REQUEST(
      "invalid-request",
      422,
      MALFORMED_REQUEST.title,
      MALFORMED_REQUEST.meaning,
      MALFORMED_REQUEST.cure),
  UNKNOWN_ID(
      "unknown-id",
      422,
      "Something named isn't known",
      "A stock, variety, trait, criterion or word in the request isn't known.",
      "Take one of those in nearest, or look it up in the catalogue with q=."),
  UNAUTHORIZED(
      "unauthorized",
      401,
      "A token is needed",
      "The operation asks for a bearer token, and none came, or one that can't be used: run out, not meant for this service, or not of its issuer.",
      "Send Authorization: Bearer and a token of the issuer that the operator configured; WWW-Authenticate says what is wrong with the one sent."),
  FORBIDDEN(
      "forbidden",
      403,
      "This is not permitted",
      "The token is good, but lacks the scope that the operation asks for; or the operation is open to nobody.",
      "Ask whoever issues tokens for one with the scope that the problem names. No scope implies another."),
  NOT_FOUND(
      "not-found",
      404,
      "Nothing is here",
      "The address names nothing that this service has.",
      "Check the path against the contract at /v3/api-docs, and the id against the catalogue."),
  METHOD_NOT_ALLOWED(
      "method-not-allowed",
      405,
      "This method doesn't work here",
      "The address exists, but not for this method.",
      "Use a method that the Allow header lists."),
  NOT_ACCEPTABLE(
      "not-acceptable",
      406,
      "No such form of the answer",
      "The answer can't be given in any form that the Accept header names.",
      "Ask for one of the media types that the problem lists; application/json always works."),
  FOUR_EYES(
      "four-eyes",
      403,
      "Somebody else has to review this",
      "Whoever wrote a statement can't accept or reject it.",
      "Ask another reviewer. An operator may allow it with understock.curation.four-eyes=false."),
  CONFLICT(
      "conflict",
      409,
      "It doesn't fit what is there",
      "What is asked can't be done as things stand: the id is taken, the same statement is there already, or a"
          + " record isn't in the standing that the operation needs.",
      "Read what the problem names, and ask for what is still to be done."),
  STALE(
      "stale",
      412,
      "It was changed in between",
      "The thing to be changed isn't what it was when it was read.",
      "Read it again, look at what has changed, and send the change with the new ETag in If-Match."),
  PRECONDITION_REQUIRED(
      "precondition-required",
      428,
      "If-Match is needed",
      "A change has to say which version it is a change of, so that nobody's work is overwritten.",
      "Read the thing, and send its ETag in If-Match. If-Match: * is refused."),
  KEY_REUSED(
      "idempotency-key-reused",
      422,
      "The Idempotency-Key was used for another request",
      "A key stands for one request, so that it is carried out once.",
      "Make a new key for every new request; use a key again only to repeat the very same request."),
  TOO_SLOW(
      "too-slow",
      408,
      "The body came too slowly",
      "The request's body did not come within the time in which its length should have.",
      "Send the body whole, on a connection that carries at least a kilobyte a second."),
  TOO_LARGE(
      "too-large",
      413,
      "The body is too large",
      "The request's body is longer than the limit.",
      "Send less in one request, or several requests: fewer candidates, fewer years of temperatures, a part of the file; detail says which."),
  URI_TOO_LONG(
      "uri-too-long",
      414,
      "The address is too long",
      "Path and query together are longer than the limit.",
      "Shorten the query."),
  UNSUPPORTED_MEDIA_TYPE(
      "unsupported-media-type",
      415,
      "The body's form can't be read",
      "The request's Content-Type isn't one that this operation reads.",
      "Send one of the media types in the Accept-Post header, usually application/json."),
  HEADERS_TOO_LARGE(
      "headers-too-large",
      431,
      "The headers are too large",
      "The request's headers together are longer than the limit.",
      "Send fewer or smaller headers and cookies."),
  TOO_MANY_REQUESTS(
      "too-many-requests",
      429,
      "Too much was asked",
      "The client has used up what one client may ask in a while; RateLimit-Policy says how much that is.",
      "Ask again after the seconds in the Retry-After header. Many questions go better in one batch, which waits by itself; an operator may set other limits with understock.limits.per-minute."),
  DATABASE_AWAY(
      "database-away",
      503,
      "The database can't be reached",
      "The answer needs the database, which doesn't answer. Requests about the latest revision go on from memory.",
      "Try again after the seconds in the Retry-After header."),
  ISSUER_AWAY(
      "issuer-away",
      503,
      "Tokens can't be checked",
      "The issuer of tokens does not answer, so that its keys aren't known. Operations that ask for no token go on.",
      "Try again after the seconds in the Retry-After header."),
  BUSY(
      "busy",
      503,
      "The service is busy",
      "More is asked at once than can be worked at.",
      "Try again after the seconds in the Retry-After header."),
  INTERNAL(
      "internal",
      500,
      "A fault of the service",
      "Something went wrong that isn't the request's fault.",
      "Try again later; when it stays, report the problem's instance to whoever runs the service.");

  private final String slug;
  private final int status;
  private final String title;
  private final String meaning;
  private final String cure;

  ProblemType(String slug, int status, String title, String meaning, String cure) {
    this.slug = slug;
    this.status = status;
    this.title = title;
    this.meaning = meaning;
    this.cure = cure;
  }

  /** The type that fits an HTTP status best. */
  static ProblemType ofStatus(int status) {
    return Arrays.stream(values())
        .filter(t -> t.status == status)
        .findFirst()
        .orElse(status >= 500 ? INTERNAL : MALFORMED_REQUEST);
  }

  /** The last part of the type's address. */
  public String slug() {
    return slug;
  }

  /** The type's address, relative to the service. */
  public String address() {
    return "/problems/" + slug;
  }

  /** HTTP status. */
  public int status() {
    return status;
  }

  public String title() {
    return title;
  }

  String meaning() {
    return meaning;
  }

  String cure() {
    return cure;
  }

  /**
   * What to say where nothing more is known than the status, because the container refused the
   * request by itself.
   */
  String unread() {
    return this == MALFORMED_REQUEST
        ? "The request's first line, its escapes or its headers aren't proper HTTP."
        : meaning;
  }
}
