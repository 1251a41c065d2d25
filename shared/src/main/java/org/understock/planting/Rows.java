package org.understock.planting;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Stretches of rows that can be planted: parallel lines over the ground, cut where trunks may not
 * stand.
 *
 * <p>Along is the way of the rows, across the way from row to row, to the right of along. Rows are
 * numbered from left to right.
 */
final class Rows {
  private static final int STEPS = 8;

  /** A part of a row in which trees may stand, from one along-coordinate to another. */
  record Stretch(int row, double across, double from, double to) {
    /** Trees at this distance that the stretch holds when the first may stand at {@code from}. */
    int holds(double from, double inRowM) {
      return to < from ? 0 : (int) Math.floor((to - from) / inRowM + 1e-9) + 1;
    }
  }

  final double bearingDeg;
  final List<Stretch> stretches;

  /** Trees that stand at the distance in the row that the rows were laid for. */
  final int trees;

  private Rows(double bearingDeg, List<Stretch> stretches, int trees) {
    this.bearingDeg = bearingDeg;
    this.stretches = stretches;
    this.trees = trees;
  }

  /** Distances that rows are laid by. */
  record Spaced(double rowM, double inRowM, double boundaryM, double holeM, double headlandM) {}

  /**
   * Rows at a bearing, shifted sideways so that they hold the most trees; of several such shifts,
   * the one that lies best in the middle.
   *
   * @param bearingDeg from the plot's y axis, clockwise
   */
  static Rows lay(Plot plot, Spaced spaced, double bearingDeg) {
    Turned turned = new Turned(bearingDeg);
    double[][] inside = turned.rings(Ground.inside(plot, spaced.boundaryM, spaced.holeM));
    if (inside.length == 0) return new Rows(bearingDeg, List.of(), 0);
    double[][] shell = turned.rings(List.<Point[]>of(closed(plot.outline())));
    double left = Double.POSITIVE_INFINITY;
    double right = Double.NEGATIVE_INFINITY;
    for (double[] ring : inside) {
      for (int k = 0; k < ring.length; k += 2) {
        left = Math.min(left, ring[k]);
        right = Math.max(right, ring[k]);
      }
    }
    Rows best = null;
    for (double first : firsts(left, right, spaced.rowM)) {
      Rows rows = lay(inside, shell, spaced, bearingDeg, first, right);
      if (best == null || rows.trees > best.trees) best = rows;
    }
    return java.util.Objects.requireNonNull(best);
  }

  /** One row along a line; trees keep half their distance from its ends. */
  static Rows line(Point from, Point to, double inRowM) {
    double bearing = Math.toDegrees(StrictMath.atan2(to.xM() - from.xM(), to.yM() - from.yM()));
    double[] ends = new Turned(bearing).ring(new Point[] {from, to});
    Stretch stretch =
        new Stretch(1, ends[0], ends[1] + inRowM / 2, ends[3] - inRowM / 2 + Ground.TOLERANCE_M);
    return new Rows(bearing, List.of(stretch), stretch.holds(stretch.from, inRowM));
  }

  private static double[] firsts(double left, double right, double rowM) {
    double edge = Ground.TOLERANCE_M / 4; // a line on the very edge would be cut by chance
    double slack = (right - left) % rowM;
    double[] firsts = new double[2 * STEPS + 2];
    firsts[0] = left + slack / 2;
    for (int k = 0; k <= STEPS; k++)
      firsts[k + 1] = left + edge + Math.max(0, slack - 2 * edge) * k / STEPS;
    for (int k = 0; k < STEPS; k++) firsts[STEPS + 2 + k] = left + edge + rowM * k / STEPS;
    return firsts;
  }

  private static Rows lay(
      double[][] inside,
      double[][] shell,
      Spaced spaced,
      double bearingDeg,
      double first,
      double right) {
    List<Stretch> stretches = new ArrayList<>();
    int trees = 0;
    int row = 0;
    for (int k = 0; first + k * spaced.rowM <= right; k++) {
      double across = first + k * spaced.rowM;
      double[] open = cut(inside, across);
      double[] whole = cut(shell, across);
      boolean any = false;
      double free = Double.NEGATIVE_INFINITY;
      for (int o = 0; o < open.length; o += 2) {
        for (int w = 0; w < whole.length; w += 2) {
          double from = Math.max(open[o], whole[w] + spaced.headlandM - Ground.TOLERANCE_M);
          double to = Math.min(open[o + 1], whole[w + 1] - spaced.headlandM + Ground.TOLERANCE_M);
          if (to < from) continue;
          Stretch stretch = new Stretch(row + 1, across, from, to);
          stretches.add(stretch);
          any = true;
          double start = Math.max(from, free); // past a shed the row goes on at full distance
          int holds = stretch.holds(start, spaced.inRowM);
          if (holds == 0) continue;
          trees += holds;
          free = to - (to - start - (holds - 1) * spaced.inRowM) / 2 + spaced.inRowM;
        }
      }
      if (any) row++;
    }
    return new Rows(bearingDeg, List.copyOf(stretches), trees);
  }

  /**
   * Along-coordinates at which a line leaves and enters the rings, in order: pairs of from and to.
   */
  private static double[] cut(double[][] rings, double across) {
    double[] cuts = new double[8];
    int n = 0;
    for (double[] ring : rings) {
      for (int k = 0; k + 3 < ring.length; k += 2) {
        double a = ring[k];
        double b = ring[k + 2];
        if (a <= across == b <= across) continue;
        if (n == cuts.length) cuts = Arrays.copyOf(cuts, 2 * n);
        cuts[n++] = ring[k + 1] + (across - a) / (b - a) * (ring[k + 3] - ring[k + 1]);
      }
    }
    double[] sorted = Arrays.copyOf(cuts, n);
    Arrays.sort(sorted);
    return sorted;
  }

  static Point[] closed(List<Point> ring) {
    Point[] closed = ring.toArray(new Point[ring.size() + 1]);
    closed[ring.size()] = closed[0];
    return closed;
  }

  Point place(double across, double along) {
    return new Turned(bearingDeg).back(across, along);
  }

  /** Coordinates along and across a bearing. Right angles are exact. */
  private static final class Turned {
    private final double sin;
    private final double cos;

    Turned(double bearingDeg) {
      boolean right = bearingDeg % 90 == 0;
      double rad = Math.toRadians(bearingDeg);
      sin = right ? Math.rint(StrictMath.sin(rad)) : StrictMath.sin(rad);
      cos = right ? Math.rint(StrictMath.cos(rad)) : StrictMath.cos(rad);
    }

    double[][] rings(List<Point[]> rings) {
      return rings.stream().map(this::ring).toArray(double[][]::new);
    }

    private double[] ring(Point[] ring) {
      double[] turned = new double[2 * ring.length];
      for (int k = 0; k < ring.length; k++) {
        turned[2 * k] = ring[k].xM() * cos - ring[k].yM() * sin;
        turned[2 * k + 1] = ring[k].xM() * sin + ring[k].yM() * cos;
      }
      return turned;
    }

    Point back(double across, double along) {
      return new Point(across * cos + along * sin, along * cos - across * sin);
    }
  }
}
