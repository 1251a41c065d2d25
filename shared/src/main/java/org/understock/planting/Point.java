package org.understock.planting;

/**
 * A place on the plot, in metres from its origin.
 *
 * @param xM to the right of the plot's y axis; east, unless the plot is turned
 * @param yM along the plot's y axis; north, unless the plot is turned
 */
public record Point(double xM, double yM) {

  /** Distance to another place, in m. */
  public double to(Point other) {
    double x = xM - other.xM;
    double y = yM - other.yM;
    return Math.sqrt(x * x + y * y);
  }
}
