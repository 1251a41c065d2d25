package org.understock.service.problem;

import java.util.List;

/** Thrown by controllers; answered as a problem. */
public final class ProblemException extends RuntimeException {
  private final ProblemType type;
  private final List<ProblemError> errors;

  private ProblemException(ProblemType type, String detail, List<ProblemError> errors) {
    super(detail, null, false, false);
    this.type = type;
    this.errors = List.copyOf(errors);
  }

  /** @param errors what exactly is wrong, all of one kind at once; may be empty */
  public static ProblemException of(ProblemType type, String detail, List<ProblemError> errors) {
    return new ProblemException(type, detail, errors);
  }

  public ProblemType type() {
    return type;
  }

  public List<ProblemError> errors() {
    return errors;
  }

  /** A query that doesn't fit its parameters is not what the contract says: 400, as a malformed body. */
  int status() {
    boolean aboutParameters = !errors.isEmpty() && errors.stream().allMatch(e -> e.parameter() != null);
    return aboutParameters && (type == ProblemType.INVALID_REQUEST || type == ProblemType.UNKNOWN_ID) ? 400 : type.status();
  }
}
