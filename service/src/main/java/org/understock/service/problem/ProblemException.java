package org.understock.service.problem;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import org.understock.trait.Refusal;

/** Thrown by controllers; answered as a problem. */
public final class ProblemException extends RuntimeException {
  private final ProblemType type;
  private final List<ProblemError> errors;
  private final Map<String, String> headers = new LinkedHashMap<>();

  private ProblemException(ProblemType type, String detail, List<ProblemError> errors) {
    super(detail, null, false, false);
    this.type = type;
    this.errors = List.copyOf(errors);
  }

  @Override
  public String getMessage() {
    return java.util.Objects.requireNonNull(super.getMessage());
  }

  /**
   * @param errors what exactly is wrong, all of one kind at once; may be empty
   */
  public static ProblemException of(ProblemType type, String detail, List<ProblemError> errors) {
    return new ProblemException(type, detail, errors);
  }

  /**
   * Everything that the engine refuses in a body, at once.
   *
   * @param refusals at least one
   * @param at where in the body it stands, as a path such as {@code records[2]}; empty for the body
   *     itself
   */
  public static ProblemException ofRefusals(List<? extends Refusal> refusals, String at) {
    List<ProblemError> errors = new ArrayList<>();
    boolean unknown = true;
    for (Refusal refusal : refusals) {
      ProblemException one = RefusalProblems.of(refusal, true);
      ProblemError error = one.errors.get(0);
      String pointer = at.isEmpty() ? error.pointer() : Pointers.ofPath(at + "." + refusal.field());
      errors.add(
          new ProblemError(pointer, null, error.detail(), error.allowed(), null, error.nearest()));
      unknown &= one.type == ProblemType.UNKNOWN_ID;
    }
    String detail =
        errors.size() == 1
            ? errors.get(0).detail()
            : errors.size() + " things are wrong with the request; errors names each.";
    return new ProblemException(
        unknown ? ProblemType.UNKNOWN_ID : ProblemType.INVALID_REQUEST, detail, errors);
  }

  /** The same problem, answered with a header besides. */
  public ProblemException withHeader(String name, String value) {
    headers.put(name, value);
    return this;
  }

  /** The same problem, its places in the body told more exactly. */
  public ProblemException repointed(UnaryOperator<String> pointer) {
    List<ProblemError> told =
        errors.stream()
            .map(
                e ->
                    e.pointer() == null
                        ? e
                        : new ProblemError(
                            pointer.apply(e.pointer()),
                            e.parameter(),
                            e.detail(),
                            e.allowed(),
                            e.given(),
                            e.nearest()))
            .toList();
    ProblemException again = new ProblemException(type, getMessage(), told);
    again.headers.putAll(headers);
    return again;
  }

  Map<String, String> headers() {
    return headers;
  }

  public ProblemType type() {
    return type;
  }

  public List<ProblemError> errors() {
    return errors;
  }

  /**
   * A query that doesn't fit its parameters is not what the contract says: 400, as a malformed
   * body.
   */
  int status() {
    boolean aboutParameters =
        !errors.isEmpty() && errors.stream().allMatch(e -> e.parameter() != null);
    return aboutParameters
            && (type == ProblemType.INVALID_REQUEST || type == ProblemType.UNKNOWN_ID)
        ? 400
        : type.status();
  }
}
