package org.understock.service.problem;

import java.net.SocketTimeoutException;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.understock.plant.Names;
import tools.jackson.core.JacksonException;
import tools.jackson.core.exc.JacksonIOException;
import tools.jackson.core.exc.StreamConstraintsException;
import tools.jackson.databind.exc.InvalidFormatException;
import tools.jackson.databind.exc.MismatchedInputException;
import tools.jackson.databind.exc.UnrecognizedPropertyException;

/** Turns what the JSON reader refuses into problems that name the place. */
final class BodyProblems {
  private static final int MOST_NEAREST = 3;

  private static final Map<Class<?>, String> KINDS =
      Map.ofEntries(
          Map.entry(Double.class, "a number"),
          Map.entry(double.class, "a number"),
          Map.entry(Integer.class, "a whole number"),
          Map.entry(int.class, "a whole number"),
          Map.entry(Long.class, "a whole number"),
          Map.entry(long.class, "a whole number"),
          Map.entry(Boolean.class, "true or false"),
          Map.entry(boolean.class, "true or false"),
          Map.entry(String.class, "a text"));

  private BodyProblems() {}

  /**
   * @param cause what the reader threw; null when there was no body at all
   */
  static ProblemException of(@Nullable Throwable cause) {
    // The reader wraps what the body's own stream throws: that goes first.
    for (Throwable t = cause; t != null; t = t.getCause()) {
      if (t instanceof ProblemException known) return known;
      if (t instanceof SocketTimeoutException)
        return ProblemException.of(
            ProblemType.TOO_SLOW, "The rest of the body did not come.", List.of());
    }
    for (Throwable t = cause; t != null; t = t.getCause())
      if (t instanceof JacksonException e && !(e instanceof JacksonIOException)) return of(e);
    if (cause == null)
      return malformed(
          "The body is missing.",
          List.of(
              new ProblemError(
                  "#", null, "is missing; a JSON object is needed", null, null, null)));
    return malformed("The body can't be read to its end.", List.of());
  }

  private static ProblemException of(JacksonException e) {
    String pointer = Pointers.of(e.getPath());
    if (e instanceof UnrecognizedPropertyException unknown) {
      return malformed(
          unknownFields(1),
          List.of(unknownField(pointer, unknown.getPropertyName(), unknown.getKnownPropertyIds())));
    }
    if (e instanceof InvalidFormatException format
        && format.getTargetType() != null
        && format.getTargetType().isEnum()) {
      return unknownWord(pointer, format.getTargetType(), String.valueOf(format.getValue()));
    }
    if (e instanceof StrictJson.UnkeepableText text) {
      return malformed(
          "A text can't be kept: " + pointer + " holds " + text.misfit() + ".",
          List.of(
              new ProblemError(
                  pointer,
                  null,
                  "holds " + text.misfit(),
                  "without " + text.misfit(),
                  null,
                  null)));
    }
    if (e instanceof MismatchedInputException mismatch) {
      if (e.getOriginalMessage().startsWith("No content")) return of((Throwable) null);
      Object given = mismatch instanceof InvalidFormatException format ? format.getValue() : null;
      String kind = kind(mismatch.getTargetType());
      return malformed(
          "A value has the wrong form: " + pointer + " must be " + kind + ".",
          List.of(new ProblemError(pointer, null, "must be " + kind, kind, given, null)));
    }
    if (e instanceof StreamConstraintsException) {
      return malformed(
          "The body is beyond the reader's limits: " + reason(e) + ".",
          List.of(new ProblemError(pointer, null, reason(e), null, null, null)));
    }
    return malformed(
        "The body is not well-formed JSON: " + reason(e) + place(e) + ".",
        List.of(new ProblemError(pointer, null, reason(e), null, null, null)));
  }

  static ProblemException malformed(String detail, List<ProblemError> errors) {
    return ProblemException.of(ProblemType.MALFORMED_REQUEST, detail, errors);
  }

  static String unknownFields(int count) {
    return count == 1
        ? "The body has a field that isn't known."
        : "The body has " + count + " fields that aren't known.";
  }

  static ProblemError unknownField(
      String pointer, String name, @Nullable Collection<Object> known) {
    List<String> names =
        known == null ? List.of() : known.stream().map(String::valueOf).sorted().toList();
    return new ProblemError(
        pointer,
        null,
        "'" + Texts.cut(name, 60) + "' is not a field here",
        names.isEmpty() ? null : String.join(", ", names),
        null,
        Names.closest(name, names, MOST_NEAREST));
  }

  private static ProblemException unknownWord(String pointer, Class<?> type, String given) {
    List<String> words = Arrays.stream(type.getEnumConstants()).map(BodyProblems::word).toList();
    return ProblemException.of(
        ProblemType.INVALID_REQUEST,
        "A word isn't one of those allowed.",
        List.of(
            new ProblemError(
                pointer,
                null,
                "must be one of " + String.join(", ", words),
                String.join(", ", words),
                given,
                Names.closest(given, words, MOST_NEAREST))));
  }

  private static String word(Object constant) {
    return constant.toString().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
  }

  private static String kind(@Nullable Class<?> type) {
    if (type == null) return "of another form";
    String kind = KINDS.get(type);
    if (kind != null) return kind;
    return Collection.class.isAssignableFrom(type) || type.isArray() ? "an array" : "an object";
  }

  /** The reader's own words, but without the names of classes and settings that it appends. */
  private static String reason(JacksonException e) {
    String text = e.getOriginalMessage().lines().findFirst().orElse("unreadable");
    return Texts.cut(
        text.replaceAll(":? enable [`'\"]?JsonReadFeature.*", "")
            .replaceAll("\\s*\\((?:from|for|through|start marker|`)[^)]*\\)?", "")
            .replaceAll("`?[\\w$]+(?:\\.[\\w$]+){2,}(?:\\(\\))?`?", "the reader"),
        200);
  }

  private static String place(JacksonException e) {
    return e.getLocation() == null || e.getLocation().getLineNr() < 1
        ? ""
        : " (line "
            + e.getLocation().getLineNr()
            + ", column "
            + e.getLocation().getColumnNr()
            + ")";
  }
}
