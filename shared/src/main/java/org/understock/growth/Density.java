package org.understock.growth;

import org.understock.trait.Refusal;

/**
 * Plain geometry of planting patterns: how many trees stand on a hectare. Headlands are not taken
 * off. All distances in metres, above 0.
 */
public final class Density {
  /**
   * Acres in a hectare are 1 / 0.40468564224: the international acre of 43 560 square feet of
   * 0.3048 m.
   */
  private static final double HECTARES_PER_ACRE = 43_560 * 0.3048 * 0.3048 / 10_000;

  private Density() {}

  /**
   * Trees per hectare at {@code rowM} between rows and {@code inRowM} in the row: 10 000 / (row ×
   * in-row).
   */
  public static double rectangular(double rowM, double inRowM) {
    return 10_000 / (positive("rowM", rowM) * positive("inRowM", inRowM));
  }

  /**
   * Trees per hectare on equilateral triangles of the given side: 15.47 % more than a square of the
   * same spacing.
   */
  public static double triangular(double sideM) {
    return 10_000 / (positive("sideM", sideM) * sideM * Math.sqrt(3) / 2);
  }

  /**
   * Trees per hectare in beds of two rows.
   *
   * @param alleyM from the last row of a bed to the first of the next
   * @param inRowM between trees of one row
   * @param gapM between the two rows of a bed
   */
  public static double doubleRow(double alleyM, double inRowM, double gapM) {
    return 2
        * 10_000
        / ((positive("alleyM", alleyM) + positive("gapM", gapM)) * positive("inRowM", inRowM));
  }

  /** Trees per acre for so many per hectare. */
  public static double perAcre(double treesPerHa) {
    return treesPerHa * HECTARES_PER_ACRE;
  }

  /**
   * Tree-row volume in m³ per hectare: the box that the canopy of a hectare's rows fills, height ×
   * width × 10 000 / row.
   */
  public static double treeRowVolumeM3PerHa(double heightM, double canopyWidthM, double rowM) {
    return positive("heightM", heightM)
        * positive("canopyWidthM", canopyWidthM)
        * 10_000
        / positive("rowM", rowM);
  }

  private static double positive(String field, double value) {
    if (!(value > 0) || Double.isInfinite(value))
      throw new Refusal.OutOfRange(field, value, "above 0 m");
    return value;
  }
}
