package org.understock.service.climate;

import jakarta.servlet.http.HttpServletRequest;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.understock.service.problem.JsonBodies;
import org.understock.service.problem.ProblemError;
import org.understock.service.problem.ProblemException;
import org.understock.service.problem.ProblemType;
import org.understock.trait.Refusal;

/**
 * The query parameters that come with a CSV body, as the request that they stand for. They are
 * written down as the JSON body of such a request and read like one, so that the same ranges hold
 * and the same things are said; only the place is told as a parameter.
 */
final class ChillParameters {
  private static final List<String> NUMBERS = List.of("latitude", "warmingC", "revision");
  private static final List<String> WORDS = List.of("units", "crop", "nightRule");
  private static final List<String> LISTS = List.of("varieties", "stocks");

  private ChillParameters() {}

  /**
   * @throws ProblemException naming parameters
   */
  static ChillRequest request(HttpServletRequest request, JsonBodies bodies) {
    Map<String, Object> body = new LinkedHashMap<>();
    for (String name : NUMBERS)
      if (request.getParameter(name) != null)
        body.put(name, number(name, request.getParameter(name)));
    for (String name : WORDS)
      if (request.getParameter(name) != null) body.put(name, request.getParameter(name));
    for (String name : LISTS)
      if (request.getParameter(name) != null) body.put(name, items(request.getParameter(name)));
    Map<String, Object> season = new LinkedHashMap<>();
    if (request.getParameter("seasonFrom") != null)
      season.put("from", request.getParameter("seasonFrom"));
    if (request.getParameter("seasonTo") != null)
      season.put("to", request.getParameter("seasonTo"));
    if (!season.isEmpty()) body.put("season", season);
    if (request.getParameter("bloom") != null)
      body.put("bloom", bloom(request.getParameter("bloom")));
    try {
      return bodies.read(bodies.write(body), ChillRequest.class);
    } catch (ProblemException refused) {
      List<ProblemError> errors = new ArrayList<>();
      for (ProblemError e : refused.errors()) {
        String path =
            Objects.requireNonNullElse(e.pointer(), "#")
                .replaceFirst("^#/?", "")
                .replaceAll("/(\\d+)", "[$1]")
                .replace('/', '.');
        errors.add(
            new ProblemError(
                null, parameter(path), e.detail(), e.allowed(), e.given(), e.nearest()));
      }
      throw ProblemException.of(refused.type(), "The query can't be used.", errors);
    }
  }

  /** What the engine refuses of a field of the request, told of the parameter that gave it. */
  static ProblemException refused(Refusal refusal) {
    String detail = Objects.requireNonNull(refusal.getMessage());
    List<String> nearest =
        refusal instanceof Refusal.Unknown unknown ? unknown.nearest() : List.of();
    return ProblemException.of(
        refusal instanceof Refusal.Unknown ? ProblemType.UNKNOWN_ID : ProblemType.INVALID_REQUEST,
        detail,
        List.of(new ProblemError(null, parameter(refusal.field()), detail, null, null, nearest)));
  }

  private static String parameter(String field) {
    if (field.startsWith("season."))
      return field.startsWith("season.from") ? "seasonFrom" : "seasonTo";
    return field.replaceFirst("[.\\[].*", "");
  }

  private static Object number(String name, String text) {
    try {
      return name.equals("revision") ? (Object) Long.valueOf(text) : Double.valueOf(text);
    } catch (NumberFormatException none) {
      throw ProblemException.of(
          ProblemType.INVALID_REQUEST,
          "The parameter '" + name + "' can't be used.",
          List.of(new ProblemError(null, name, "must be a number", null, text, null)));
    }
  }

  private static List<String> items(String text) {
    return java.util.Arrays.stream(text.split(","))
        .map(String::strip)
        .filter(s -> !s.isEmpty())
        .toList();
  }

  private static List<Map<String, @Nullable Object>> bloom(String text) {
    List<Map<String, @Nullable Object>> told = new ArrayList<>();
    for (String one : items(text)) {
      int colon = one.lastIndexOf(':');
      if (colon < 0) {
        throw ProblemException.of(
            ProblemType.INVALID_REQUEST,
            "The parameter 'bloom' can't be used.",
            List.of(
                new ProblemError(
                    null,
                    "bloom",
                    "must be varieties with their days, such as fuji:04-25",
                    null,
                    one,
                    null)));
      }
      Map<String, @Nullable Object> bloom = new LinkedHashMap<>();
      bloom.put("variety", one.substring(0, colon).strip());
      bloom.put("fullBloom", one.substring(colon + 1).strip());
      told.add(bloom);
    }
    return told;
  }
}
