package org.understock.site;

import org.jspecify.annotations.Nullable;
import org.understock.trait.Refusal;

/**
 * Soil of the site; every part may be unknown.
 *
 * @param depthCm rootable depth, 10 to 500 cm
 * @param ph 3 to 10
 * @param salinityDsPerM electrical conductivity of the saturation extract, 0 to 30 dS/m
 * @param replant whether the same kind of tree stood here before
 */
public record Soil(
    @Nullable Texture texture,
    @Nullable Drainage drainage,
    @Nullable Double depthCm,
    @Nullable Double ph,
    @Nullable Double salinityDsPerM,
    @Nullable Fertility fertility,
    @Nullable Boolean replant) {

  public static final Soil UNKNOWN = new Soil(null, null, null, null, null, null, null);

  public Soil {
    Range.check("site.soil.depthCm", depthCm, 10, 500, "cm");
    Range.check("site.soil.ph", ph, 3, 10, "");
    Range.check("site.soil.salinityDsPerM", salinityDsPerM, 0, 30, "dS/m");
  }

  /** The twelve USDA texture classes, coarse to fine. */
  public enum Texture implements Word {
    SAND,
    LOAMY_SAND,
    SANDY_LOAM,
    LOAM,
    SILT_LOAM,
    SILT,
    SANDY_CLAY_LOAM,
    CLAY_LOAM,
    SILTY_CLAY_LOAM,
    SANDY_CLAY,
    SILTY_CLAY,
    CLAY
  }

  /** The seven USDA-NRCS natural drainage classes, dry to wet. */
  public enum Drainage implements Word {
    EXCESSIVELY_DRAINED,
    SOMEWHAT_EXCESSIVELY_DRAINED,
    WELL_DRAINED,
    MODERATELY_WELL_DRAINED,
    SOMEWHAT_POORLY_DRAINED,
    POORLY_DRAINED,
    VERY_POORLY_DRAINED
  }

  public enum Fertility implements Word {
    LOW,
    MODERATE,
    HIGH
  }

  static final class Range {
    private Range() {}

    static void check(String field, @Nullable Double value, double low, double high, String unit) {
      if (value != null && !(value >= low && value <= high)) {
        throw new Refusal.OutOfRange(
            field,
            value,
            "between " + plain(low) + " and " + plain(high) + (unit.isEmpty() ? "" : " " + unit));
      }
    }

    private static String plain(double x) {
      return x == Math.rint(x) ? String.valueOf((long) x) : String.valueOf(x);
    }
  }
}
