package org.understock.planting;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.site.Site;
import org.understock.trait.Refusal;

/** The row at the foot of a wall. */
final class Wall {
  /**
   * Trunk to wall: room for the stem to thicken and for soil that the rain reaches. Common
   * practice, no source.
   */
  static final double GAP_M = 0.25;

  private Wall() {}

  /** The side on which the wall stands when it is not told: the one that faces the sun. */
  static Layout.Side usual(Site site) {
    return site.latitude() != null && site.latitude() < 0 ? Layout.Side.SOUTH : Layout.Side.NORTH;
  }

  /**
   * The row along the plot's longest edge on that side.
   *
   * @throws Refusal.Conflict when the plot has no such edge, or it is too short for one tree
   */
  static Rows row(Plot plot, Layout.Side side, double inRowM) {
    List<Point> outline = plot.outline();
    double turn = clockwise(outline) ? -1 : 1;
    @Nullable Point from = null;
    @Nullable Point to = null;
    for (int k = 0; k < outline.size(); k++) {
      Point a = outline.get(k);
      Point b = outline.get((k + 1) % outline.size());
      double outward =
          Math.toDegrees(StrictMath.atan2(turn * (b.yM() - a.yM()), -turn * (b.xM() - a.xM())))
              + plot.yAxisBearingDeg();
      double off = Math.abs(Math.IEEEremainder(outward - side.bearingDeg(), 360));
      if (off <= 45 + 1e-9 && (from == null || to == null || a.to(b) > from.to(to) + 1e-9)) {
        from = a;
        to = b;
      }
    }
    if (from == null || to == null)
      throw new Refusal.Conflict(
          "layout.wallSide", "the plot has no edge to the " + side.id() + "; name another side");
    double length = from.to(to);
    if (length < inRowM) {
      throw new Refusal.Conflict(
          "plot",
          "the wall to the "
              + side.id()
              + " is "
              + Metres.text(length)
              + " m long, and one tree wants "
              + Metres.text(inRowM)
              + " m of it; take a weaker stock, or give layout.inRowSpacingM");
    }
    double x = -turn * (to.yM() - from.yM()) / length * GAP_M;
    double y = turn * (to.xM() - from.xM()) / length * GAP_M;
    return Rows.line(
        new Point(from.xM() + x, from.yM() + y), new Point(to.xM() + x, to.yM() + y), inRowM);
  }

  private static boolean clockwise(List<Point> ring) {
    double twice = 0;
    for (int k = 0; k < ring.size(); k++) {
      Point a = ring.get(k);
      Point b = ring.get((k + 1) % ring.size());
      twice += a.xM() * b.yM() - b.xM() * a.yM();
    }
    return twice < 0;
  }
}
