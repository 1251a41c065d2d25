package org.understock.site;

import org.understock.site.Soil.Texture;
import org.understock.trait.Refusal;

/**
 * The USDA soil texture triangle: the class of a soil from its parts of sand (2 to 0.05 mm), silt
 * (0.05 to 0.002 mm) and clay (below 0.002 mm).
 *
 * <p>Class limits as the USDA-NRCS particle size estimator draws them (half-open, so that every
 * point of the triangle has one class); the glossary of the Soil Science Society of America words
 * some edges more loosely. Loamy sand ends at silt + 2 × clay = 30; one published program prints
 * 1.5 in place of 2, against all the other sources.
 */
public final class TextureTriangle {
  /**
   * Percent by which the three parts may miss 100, for laboratory figures rounded to whole
   * percents.
   */
  private static final double ROUNDING = 1.0;

  private TextureTriangle() {}

  /**
   * @param sand percent by mass, 0 to 100
   * @param silt percent by mass, 0 to 100
   * @param clay percent by mass, 0 to 100; the three add up to 100 within 1
   * @throws Refusal.OutOfRange when a part is not a percentage
   * @throws Refusal.Conflict when the parts do not add up
   */
  public static Texture classify(double sand, double silt, double clay) {
    percentage("sand", sand);
    percentage("silt", silt);
    percentage("clay", clay);
    double sum = sand + silt + clay;
    if (Math.abs(sum - 100) > ROUNDING) {
      throw new Refusal.Conflict(
          "clay",
          "sand, silt and clay add up to " + sum + "; must be 100 percent within " + ROUNDING);
    }
    if (clay >= 40) return clayey(sand, silt);
    if (clay >= 35 && sand > 45) return Texture.SANDY_CLAY;
    if (clay >= 27)
      return sand > 45
          ? Texture.SANDY_CLAY_LOAM
          : sand > 20 ? Texture.CLAY_LOAM : Texture.SILTY_CLAY_LOAM;
    if (silt + 1.5 * clay < 15) return Texture.SAND;
    if (silt + 2 * clay < 30) return Texture.LOAMY_SAND;
    if (clay >= 20 && silt < 28 && sand > 45) return Texture.SANDY_CLAY_LOAM;
    if (silt >= 50) return silt >= 80 && clay < 12 ? Texture.SILT : Texture.SILT_LOAM;
    return clay >= 7 && sand <= 52 && silt >= 28 ? Texture.LOAM : Texture.SANDY_LOAM;
  }

  private static Texture clayey(double sand, double silt) {
    if (sand > 45) return Texture.SANDY_CLAY;
    return silt >= 40 ? Texture.SILTY_CLAY : Texture.CLAY;
  }

  private static void percentage(String part, double value) {
    if (!(value >= 0 && value <= 100))
      throw new Refusal.OutOfRange(part, value, "between 0 and 100 percent");
  }
}
