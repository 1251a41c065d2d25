package org.understock.service.problem;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One thing wrong with a request.
 *
 * @param pointer JSON Pointer into the body as a URI fragment, {@code #/site/soil/ph}; absent when
 *     the body isn't meant
 * @param parameter name of the query, path or header parameter; absent when it is about the body
 * @param detail what is wrong, for people
 * @param allowed what would do: a range or a list of words
 * @param given what was sent; texts are cut after 80 characters
 * @param nearest known words or ids that look most like it, nearest first
 */
public record ProblemError(
    @Nullable String pointer,
    @Nullable String parameter,
    String detail,
    @Nullable String allowed,
    @Nullable Object given,
    @Nullable List<String> nearest) {
  private static final int ECHOED = 80;

  public ProblemError {
    detail = Texts.printable(detail);
    given = given == null ? null : echo(given);
    nearest = nearest == null || nearest.isEmpty() ? null : List.copyOf(nearest);
  }

  /** About a place in the body, given as a camelCase path such as {@code candidates.stocks[2]}. */
  static ProblemError at(String path, String detail) {
    return new ProblemError(Pointers.ofPath(path), null, detail, null, null, null);
  }

  private static @Nullable Object echo(Object given) {
    if (given instanceof Boolean) return given;
    // NaN and infinities are no JSON numbers
    if (given instanceof Number number)
      return Double.isFinite(number.doubleValue()) ? given : number.toString();
    if (!(given instanceof CharSequence || given instanceof Enum<?>))
      return null; // whole objects and lists say nothing that the pointer doesn't
    return Texts.printable(Texts.cut(given.toString(), ECHOED));
  }
}
