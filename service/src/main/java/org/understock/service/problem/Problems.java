package org.understock.service.problem;

import jakarta.servlet.http.HttpServletRequest;
import java.util.List;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.understock.trait.Refusal;

/** Tells what went wrong with one of many things that a request asks, while the others go on. */
public final class Problems {
  private static final Logger LOG = LoggerFactory.getLogger(Problems.class);

  private Problems() {}

  /**
   * The problem that the request would have been answered with, had it asked for this alone. A
   * fault of ours is logged.
   */
  public static Problem of(RuntimeException e, HttpServletRequest request) {
    ProblemException known;
    if (e instanceof ProblemException told) known = told;
    else if (e instanceof Refusal refusal) known = RefusalProblems.of(refusal, true);
    else {
      LOG.error("One of a request's questions failed", e);
      known =
          ProblemException.of(
              ProblemType.INTERNAL,
              "Something went wrong in the service; the log has it under this instance.",
              List.of());
    }
    return Problem.of(
        known.type(),
        known.status(),
        String.valueOf(known.getMessage()),
        RequestId.of(request),
        known.errors());
  }
}
