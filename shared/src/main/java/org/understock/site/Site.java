package org.understock.site;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.trait.Refusal;

/**
 * The grower's place; every part may be unknown.
 *
 * @param latitude degrees north, -66 to 66
 * @param coldestNightC air temperature of the coldest night of a usual winter, -60 to 20 °C
 * @param chillHours hours from 0 to 7.2 °C in a usual winter, 0 to 4000
 * @param chillPortions Dynamic Model portions in a usual winter, 0 to 200
 * @param frostFreeDays days from last spring to first autumn frost, 0 to 366
 * @param pressures slugs of pests and diseases that are present
 * @param winters what its winters brought, where they were measured; figures told of a usual winter
 *     go before them
 */
public record Site(
    @Nullable Double latitude,
    @Nullable Double coldestNightC,
    @Nullable Double chillHours,
    @Nullable Double chillPortions,
    @Nullable Double frostFreeDays,
    Soil soil,
    @Nullable Irrigation irrigation,
    @Nullable Wind wind,
    List<String> pressures,
    @Nullable MeasuredWinters winters) {

  public static final Site UNKNOWN =
      new Site(null, null, null, null, null, Soil.UNKNOWN, null, null, List.of());

  public Site {
    Soil.Range.check("site.latitude", latitude, -66, 66, "degrees");
    Soil.Range.check("site.coldestNightC", coldestNightC, -60, 20, "°C");
    Soil.Range.check("site.chillHours", chillHours, 0, 4000, "hours");
    Soil.Range.check("site.chillPortions", chillPortions, 0, 200, "portions");
    Soil.Range.check("site.frostFreeDays", frostFreeDays, 0, 366, "days");
    pressures = List.copyOf(pressures);
    if (chillHours != null && chillPortions != null) {
      throw new Refusal.Conflict(
          "site.chillPortions",
          "give chillHours or chillPortions, not both: one cannot be converted into the other");
    }
  }

  /** A place whose winters were not measured. */
  public Site(
      @Nullable Double latitude,
      @Nullable Double coldestNightC,
      @Nullable Double chillHours,
      @Nullable Double chillPortions,
      @Nullable Double frostFreeDays,
      Soil soil,
      @Nullable Irrigation irrigation,
      @Nullable Wind wind,
      List<String> pressures) {
    this(
        latitude,
        coldestNightC,
        chillHours,
        chillPortions,
        frostFreeDays,
        soil,
        irrigation,
        wind,
        pressures,
        null);
  }

  public enum Irrigation implements Word {
    NONE,
    OCCASIONAL,
    RELIABLE
  }

  public enum Wind implements Word {
    SHELTERED,
    MODERATE,
    EXPOSED
  }
}
