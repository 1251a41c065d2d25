package org.understock.planting;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.trait.Refusal;

/**
 * The ground to plant: an outline, holes in it such as a shed or a pond, and how it lies.
 *
 * @param outline corners in order, either way round, the first not repeated
 * @param holes outlines of what is not planted, inside the plot, not touching one another
 * @param boundaryM least distance of a trunk from the outline, 0 to 50 m; null for half the crown's
 *     width
 * @param headlandM free length at both ends of a row, 0 to 50 m; null for what the machine needs to
 *     turn
 * @param slope how the ground falls, or null for level ground
 * @param yAxisBearingDeg compass bearing of the plot's y axis, 0 to 360: 0 when y points north
 */
public record Plot(
    List<Point> outline,
    List<List<Point>> holes,
    @Nullable Double boundaryM,
    @Nullable Double headlandM,
    @Nullable Slope slope,
    double yAxisBearingDeg) {

  /** Most corners of an outline. */
  public static final int MOST_CORNERS = 500;

  /** Most holes. */
  public static final int MOST_HOLES = 100;

  /** Most corners of outline and holes together. */
  public static final int MOST_OF_ALL = 2000;

  /** Coordinates reach from -FARTHEST_M to FARTHEST_M. */
  public static final double FARTHEST_M = 5000;

  /**
   * @param percent fall for the distance, 0 to 100
   * @param downhillDeg bearing in which the ground falls, from the plot's y axis clockwise, 0 to
   *     360
   */
  public record Slope(double percent, double downhillDeg) {
    public Slope {
      range("plot.slope.percent", percent, 0, 100, "%");
      range("plot.slope.downhillDeg", downhillDeg, 0, 360, "degrees");
    }
  }

  public Plot {
    outline = List.copyOf(outline);
    holes = holes.stream().map(List::copyOf).toList();
    corners("plot.outline", outline);
    if (holes.size() > MOST_HOLES)
      throw new Refusal.OutOfRange("plot.holes", holes.size() + " holes", "at most " + MOST_HOLES);
    for (int k = 0; k < holes.size(); k++) corners("plot.holes[" + k + "]", holes.get(k));
    if (boundaryM != null) range("plot.boundaryM", boundaryM, 0, 50, "m");
    if (headlandM != null) range("plot.headlandM", headlandM, 0, 50, "m");
    range("plot.yAxisBearingDeg", yAxisBearingDeg, 0, 360, "degrees");
    int all = outline.size() + holes.stream().mapToInt(List::size).sum();
    if (all > MOST_OF_ALL)
      throw new Refusal.OutOfRange(
          "plot.holes",
          all + " corners with the outline's",
          "at most " + MOST_OF_ALL + " corners in all");
    Ground.check(outline, holes);
  }

  /**
   * A rectangle with its first corner at the origin, {@code widthM} along x and {@code lengthM}
   * along y, each 0.5 to 5000 m.
   */
  public static Plot rectangle(double widthM, double lengthM, @Nullable Double headlandM) {
    return new Plot(corners(widthM, lengthM), List.of(), null, headlandM, null, 0);
  }

  /** The corners of a rectangle with its first corner at the origin. */
  public static List<Point> corners(double widthM, double lengthM) {
    range("plot.widthM", widthM, 0.5, FARTHEST_M, "m");
    range("plot.lengthM", lengthM, 0.5, FARTHEST_M, "m");
    return List.of(
        new Point(0, 0), new Point(widthM, 0), new Point(widthM, lengthM), new Point(0, lengthM));
  }

  /** Ground inside the outline without the holes, in m². */
  public double areaM2() {
    return Ground.area(outline) - holes.stream().mapToDouble(Ground::area).sum();
  }

  private static void corners(String field, List<Point> ring) {
    List<Point> distinct = new ArrayList<>(new java.util.LinkedHashSet<>(ring));
    if (distinct.size() < 3 || ring.size() > MOST_CORNERS) {
      throw new Refusal.OutOfRange(
          field,
          ring.size() + " corners, " + distinct.size() + " of them different",
          "between 3 and " + MOST_CORNERS + " different corners");
    }
    for (int k = 0; k < ring.size(); k++) {
      range(field + "[" + k + "].xM", ring.get(k).xM(), -FARTHEST_M, FARTHEST_M, "m");
      range(field + "[" + k + "].yM", ring.get(k).yM(), -FARTHEST_M, FARTHEST_M, "m");
    }
  }

  static void range(String field, double value, double low, double high, String unit) {
    if (!(value >= low && value <= high))
      throw new Refusal.OutOfRange(
          field, value, "between " + plain(low) + " and " + plain(high) + " " + unit);
  }

  private static String plain(double x) {
    return x == Math.rint(x) ? String.valueOf((long) x) : String.valueOf(x);
  }
}
