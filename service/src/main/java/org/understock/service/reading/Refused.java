package org.understock.service.reading;

import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.understock.plant.Crop;
import org.understock.plant.Plants;
import org.understock.plant.Variety;
import org.understock.service.problem.ProblemError;
import org.understock.service.problem.ProblemException;
import org.understock.service.problem.ProblemType;

/** The problems of reads: something that is not there, or a parameter that can't be used. */
public final class Refused {
  private Refused() {}

  public static ProblemException notFound(
      String parameter, String what, Object given, List<String> nearest) {
    String detail = "There is no " + what + " '" + given + "'.";
    return ProblemException.of(
        ProblemType.NOT_FOUND,
        detail,
        List.of(
            new ProblemError(
                null, parameter, "is not known", null, given, nearest.isEmpty() ? null : nearest)));
  }

  public static ProblemException parameter(
      String parameter,
      String detail,
      Object given,
      @Nullable String allowed,
      List<String> nearest) {
    return ProblemException.of(
        ProblemType.INVALID_REQUEST,
        "The parameter '" + parameter + "' can't be used.",
        List.of(
            new ProblemError(
                null, parameter, detail, allowed, given, nearest.isEmpty() ? null : nearest)));
  }

  /**
   * The variety that the {@code id} in a path means, by id or by a spelling that means one variety
   * over all crops.
   */
  public static Variety unlessOne(Plants plants, String id) {
    List<Variety> meant = plants.meantVarieties(id);
    if (meant.size() == 1) return meant.get(0);
    List<String> nearest =
        meant.isEmpty() ? plants.nearestVarieties(id) : meant.stream().map(Variety::id).toList();
    throw notFound("id", "variety", id, nearest);
  }

  /** The crop that a parameter names; null when it is not given. */
  public static @Nullable Crop crop(@Nullable String given) {
    if (given == null) return null;
    for (Crop crop : Crop.values()) if (crop.id().equals(given)) return crop;
    throw parameter(
        "crop",
        "is not a crop",
        given,
        String.join(", ", Crop.ids()),
        org.understock.plant.Names.closest(given, Crop.ids(), 3));
  }

  /** What a filter names; null when it is not given. */
  public static <T> @Nullable T filter(
      String parameter,
      String what,
      @Nullable String given,
      Function<String, java.util.Optional<T>> find,
      Function<String, List<String>> nearest) {
    if (given == null) return null;
    return find.apply(given)
        .orElseThrow(
            () ->
                parameter(parameter, "is not a known " + what, given, null, nearest.apply(given)));
  }
}
