package org.understock.service.problem;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A problem as sent (RFC 9457), media type {@code application/problem+json}.
 *
 * @param type address of a page that says what this kind of problem means
 * @param title the same for every problem of the type
 * @param status HTTP status
 * @param detail what is wrong this time, for people
 * @param instance names the request; the service's log carries the same id
 * @param errors what exactly is wrong, where that can be told
 */
public record Problem(
    String type,
    String title,
    int status,
    String detail,
    String instance,
    @Nullable List<ProblemError> errors) {
  /**
   * @param requestId id of the request, as in the log
   */
  public static Problem of(
      ProblemType type, String detail, String requestId, List<ProblemError> errors) {
    return of(type, type.status(), detail, requestId, errors);
  }

  static Problem of(
      ProblemType type, int status, String detail, String requestId, List<ProblemError> errors) {
    return new Problem(
        type.address(),
        type.title(),
        status,
        Texts.printable(Texts.cut(detail, 600)),
        "/requests/" + requestId,
        errors.isEmpty() ? null : List.copyOf(errors));
  }
}
