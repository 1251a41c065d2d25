package org.understock.service.reading;

import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.web.context.request.ServletWebRequest;
import org.springframework.web.context.request.WebRequest;
import org.understock.service.platform.Cursor;
import org.understock.service.problem.ProblemError;
import org.understock.service.problem.ProblemException;
import org.understock.service.problem.ProblemType;
import org.understock.service.store.Revision;
import org.understock.service.store.Snapshot;
import org.understock.service.store.Snapshots;

/**
 * Opens the snapshot that a read is to see: the revision asked for, or the one a cursor is pinned
 * to, or the latest.
 */
@Component
public class Reads {
  private final Snapshots snapshots;

  Reads(Snapshots snapshots) {
    this.snapshots = snapshots;
  }

  /** A read of one thing, as of a revision or of the latest. */
  public Reading one(WebRequest request, @Nullable Long revision) {
    ServletWebRequest servlet = (ServletWebRequest) request;
    return new Reading(servlet, at(revision), list(servlet), null, secret());
  }

  /** A read of one page of a list. */
  public Reading page(WebRequest request, @Nullable Long revision, @Nullable String cursor) {
    if (cursor == null) return one(request, revision);
    ServletWebRequest servlet = (ServletWebRequest) request;
    String list = list(servlet);
    Cursor from =
        Cursor.read(cursor, list, secret())
            .orElseThrow(
                () ->
                    Refused.parameter(
                        "cursor",
                        "is not a cursor of this list; begin again without it",
                        shortened(cursor),
                        null,
                        List.of()));
    if (revision != null && revision != from.revision()) {
      throw Refused.parameter(
          "revision",
          "differs from the revision that the cursor is pinned to",
          revision,
          String.valueOf(from.revision()),
          List.of());
    }
    return new Reading(servlet, at(from.revision()), list, from.after(), secret());
  }

  /** The snapshot that a body's {@code revision} asks for; the latest when it asks for none. */
  public Snapshot asked(@Nullable Long revision) {
    if (revision == null) return snapshots.latest();
    long latest = snapshots.latest().revision().number();
    return snapshots
        .at(revision)
        .orElseThrow(
            () ->
                ProblemException.of(
                    ProblemType.UNKNOWN_ID,
                    "There is no revision " + revision + ".",
                    List.of(
                        new ProblemError(
                            "#/revision",
                            null,
                            "is not known; the latest is " + latest,
                            "between 1 and " + latest,
                            revision,
                            List.of(String.valueOf(latest))))));
  }

  /** The snapshot that the parameter {@code revision} asks for; the latest when it is null. */
  public Snapshot pinned(@Nullable Long revision) {
    return at(revision);
  }

  public Snapshots snapshots() {
    return snapshots;
  }

  private Snapshot at(@Nullable Long revision) {
    if (revision == null) return snapshots.latest();
    long latest = snapshots.latest().revision().number();
    return snapshots
        .at(revision)
        .orElseThrow(
            () ->
                Refused.notFound(
                    "revision", "revision", revision, List.of(String.valueOf(latest))));
  }

  private String secret() {
    List<Revision> revisions = snapshots.revisions();
    return revisions.get(revisions.size() - 1).digest();
  }

  /** Path and filters, which must not change between the pages of one walk. */
  private static String list(ServletWebRequest request) {
    Map<String, String[]> filters = new TreeMap<>(request.getParameterMap());
    filters.keySet().removeAll(java.util.Set.of("cursor", "limit", "revision"));
    return request.getRequest().getRequestURI()
        + filters.entrySet().stream()
            .map(e -> "&" + e.getKey() + "=" + Objects.requireNonNull(e.getValue())[0])
            .collect(Collectors.joining());
  }

  private static String shortened(String text) {
    return text.length() <= 80 ? text : text.substring(0, 80);
  }
}
