package org.understock.planting;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.operation.buffer.BufferOp;
import org.locationtech.jts.operation.buffer.BufferParameters;
import org.locationtech.jts.operation.valid.IsValidOp;
import org.locationtech.jts.operation.valid.TopologyValidationError;
import org.understock.trait.Refusal;

/**
 * The plot as geometry: checked, shrunk by the distances to keep, and cut along lines. The only
 * class that knows the geometry library.
 */
final class Ground {
  /** Distances are kept to this, so that a plot exactly as wide as its rows still holds them. */
  static final double TOLERANCE_M = 0.001;

  private static final GeometryFactory FACTORY = new GeometryFactory();

  /**
   * Corners stay corners up to this many times the distance: a cut corner is farther than asked,
   * never nearer.
   */
  private static final BufferParameters SHARP =
      new BufferParameters(
          BufferParameters.DEFAULT_QUADRANT_SEGMENTS,
          BufferParameters.CAP_FLAT,
          BufferParameters.JOIN_MITRE,
          5);

  private Ground() {}

  /**
   * @throws Refusal.Conflict for an outline that crosses itself, or a hole that is not inside
   */
  static void check(List<Point> outline, List<List<Point>> holes) {
    Polygon whole = polygon(outline);
    valid("plot.outline", whole);
    for (int k = 0; k < holes.size(); k++) {
      String field = "plot.holes[" + k + "]";
      Polygon hole = polygon(holes.get(k));
      valid(field, hole);
      if (!whole.covers(hole)) {
        throw new Refusal.Conflict(
            field,
            field
                + " is not inside plot.outline; cut it off at the outline, or move the outline in");
      }
      for (int other = 0; other < k; other++) {
        if (hole.intersects(polygon(holes.get(other)))) {
          throw new Refusal.Conflict(
              field, field + " touches plot.holes[" + other + "]; give the two as one outline");
        }
      }
    }
  }

  private static void valid(String field, Polygon polygon) {
    TopologyValidationError error = new IsValidOp(polygon).getValidationError();
    if (error != null) {
      Coordinate at = error.getCoordinate();
      throw new Refusal.Conflict(
          field,
          field
              + " crosses or touches itself near x "
              + Metres.text(at.x)
              + ", y "
              + Metres.text(at.y)
              + "; give the corners in order, once round");
    }
    if (!(polygon.getArea() > 0))
      throw new Refusal.Conflict(
          field, field + " encloses no ground; give corners that are not all on one line");
  }

  static double area(List<Point> ring) {
    return polygon(ring).getArea();
  }

  /**
   * Where trunks may stand: so far from the outline and from holes, as rings of corners; empty when
   * nothing is left.
   */
  static List<Point[]> inside(Plot plot, double boundaryM, double holeM) {
    Geometry left = widened(polygon(plot.outline()), -Math.max(0, boundaryM - TOLERANCE_M));
    for (List<Point> hole : plot.holes())
      left = left.difference(widened(polygon(hole), Math.max(0, holeM - TOLERANCE_M)));
    List<Point[]> rings = new ArrayList<>();
    for (int k = 0; k < left.getNumGeometries(); k++) {
      if (!(left.getGeometryN(k) instanceof Polygon part) || part.isEmpty()) continue;
      rings.add(points(part.getExteriorRing()));
      for (int h = 0; h < part.getNumInteriorRing(); h++)
        rings.add(points(part.getInteriorRingN(h)));
    }
    return rings;
  }

  private static Geometry widened(Polygon polygon, double m) {
    return m == 0 ? polygon : new BufferOp(polygon, SHARP).getResultGeometry(m);
  }

  private static Point[] points(LinearRing ring) {
    return Arrays.stream(ring.getCoordinates()).map(c -> new Point(c.x, c.y)).toArray(Point[]::new);
  }

  /** Whether a place is on the plot and not in a hole. */
  static boolean covers(Plot plot, Point point) {
    org.locationtech.jts.geom.Point place =
        FACTORY.createPoint(new Coordinate(point.xM(), point.yM()));
    return polygon(plot.outline()).covers(place)
        && plot.holes().stream().noneMatch(hole -> polygon(hole).contains(place));
  }

  private static Polygon polygon(List<Point> ring) {
    Coordinate[] corners = new Coordinate[ring.size() + 1];
    for (int k = 0; k < ring.size(); k++)
      corners[k] = new Coordinate(ring.get(k).xM(), ring.get(k).yM());
    corners[ring.size()] = corners[0].copy();
    return FACTORY.createPolygon(corners);
  }
}
