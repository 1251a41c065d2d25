package org.understock.service.curation;

import java.util.List;
import org.understock.service.problem.ProblemError;
import org.understock.service.problem.ProblemException;
import org.understock.service.problem.ProblemType;

/** What curators are told when something can't be done. */
final class RecordProblems {
  private RecordProblems() {}

  static ProblemException notFound(String id) {
    return ProblemException.of(
        ProblemType.NOT_FOUND,
        "There is no record '" + id + "'.",
        List.of(new ProblemError(null, "id", "is not known", null, id, null)));
  }

  static ProblemException taken(String what, String id) {
    return ProblemException.of(
        ProblemType.CONFLICT,
        "There is a " + what + " '" + id + "' already.",
        List.of(new ProblemError("#/id", null, "is taken", "an id that is not in use", id, null)));
  }

  static ProblemException conflict(String detail) {
    return ProblemException.of(ProblemType.CONFLICT, detail, List.of());
  }

  static ProblemException stale(FiledRecord now) {
    return ProblemException.of(
            ProblemType.STALE,
            "Record "
                + now.record().id()
                + " was changed since it was read: its tag is now "
                + tag(now)
                + ". Read it again.",
            List.of())
        .withHeader("ETag", tag(now));
  }

  /** The strong entity tag of a record. */
  static String tag(FiledRecord filed) {
    return "\"" + filed.record().id() + "." + filed.version() + "\"";
  }
}
