package org.understock.service.drawing;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.http.InvalidMediaTypeException;
import org.springframework.http.MediaType;
import org.springframework.util.MimeTypeUtils;

/** Answers that can also be had as pictures. */
public final class Pictures {
  /** Media type of SVG, the IANA registration being that of SVG 1.1. */
  public static final String SVG = "image/svg+xml";

  /** The same as a value. */
  public static final MediaType TYPE = MediaType.parseMediaType(SVG);

  private Pictures() {}

  /** Whether an Accept header would sooner have a page to read and print than JSON or a picture. */
  public static boolean pageWanted(@Nullable String accept) {
    if (accept == null) return false;
    try {
      List<MediaType> types = MediaType.parseMediaTypes(accept);
      MimeTypeUtils.sortBySpecificity(types);
      double page = quality(MediaType.TEXT_HTML, types);
      return page > quality(MediaType.APPLICATION_JSON, types) && page >= quality(TYPE, types);
    } catch (InvalidMediaTypeException e) {
      return false; // such a header never comes this far: it is answered with 406
    }
  }

  /**
   * Whether an Accept header would sooner have a picture than JSON; where both are as welcome it is
   * JSON.
   */
  public static boolean wanted(@Nullable String accept) {
    return best(accept, List.of(MediaType.APPLICATION_JSON, TYPE)).equals(TYPE);
  }

  /**
   * Which of the forms of an answer an Accept header would soonest have; of those as welcome, the
   * one that is offered first.
   */
  public static MediaType best(@Nullable String accept, List<MediaType> offered) {
    MediaType best = offered.get(0);
    if (accept == null) return best;
    try {
      List<MediaType> types = MediaType.parseMediaTypes(accept);
      MimeTypeUtils.sortBySpecificity(types);
      for (MediaType type : offered) if (quality(type, types) > quality(best, types)) best = type;
      return best;
    } catch (InvalidMediaTypeException e) {
      return best; // such a header never comes this far: it is answered with 406
    }
  }

  /** What the most specific range that holds the type says of it (RFC 9110, 12.5.1). */
  private static double quality(MediaType type, List<MediaType> bySpecificity) {
    return bySpecificity.stream()
        .filter(range -> range.includes(type))
        .findFirst()
        .map(MediaType::getQualityValue)
        .orElse(0.0);
  }
}
