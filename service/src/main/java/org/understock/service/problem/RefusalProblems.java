package org.understock.service.problem;

import java.util.List;
import org.understock.trait.Refusal;

/** Turns what the engine refuses into problems. */
final class RefusalProblems {
  private RefusalProblems() {}

  /**
   * @param aboutBody whether the refused field lies in the body; otherwise it is a parameter
   */
  static ProblemException of(Refusal refusal, boolean aboutBody) {
    String pointer = aboutBody ? Pointers.ofPath(refusal.field()) : null;
    String parameter = aboutBody ? null : refusal.field();
    String allowed = refusal instanceof Refusal.OutOfRange range ? range.allowed() : null;
    List<String> nearest =
        refusal instanceof Refusal.Unknown unknown ? unknown.nearest() : List.of();
    ProblemType type =
        refusal instanceof Refusal.Unknown ? ProblemType.UNKNOWN_ID : ProblemType.INVALID_REQUEST;
    String detail = Texts.cut(refusal.getMessage(), 300);
    return ProblemException.of(
        type,
        detail,
        List.of(new ProblemError(pointer, parameter, detail, allowed, null, nearest)));
  }
}
