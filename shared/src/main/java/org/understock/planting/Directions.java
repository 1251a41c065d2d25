package org.understock.planting;

import java.util.ArrayList;
import java.util.List;
import org.understock.planting.PlantingPlan.Tried;

/** Chooses the way of the rows, and says why. */
final class Directions {
  /** Fall from which rows follow the contour, against erosion (common practice, no source). */
  static final double CONTOUR_FROM_PERCENT = 5;

  /**
   * Rows towards the pole light both their sides alike; worth this share of the trees. Common
   * practice, no source for the share.
   */
  private static final double LIGHT_WORTH = 0.03;

  /** Sides shorter than this share of the longest are not tried. */
  private static final double LONG_SIDE = 0.4;

  private static final int MOST_SIDES = 6;

  /** The rows as chosen. */
  record Chosen(Rows rows, PlanText reason, List<Tried> tried) {}

  private final Plot plot;
  private final Rows.Spaced spaced;

  private Directions(Plot plot, Rows.Spaced spaced) {
    this.plot = plot;
    this.spaced = spaced;
  }

  static Chosen choose(Plot plot, Rows.Spaced spaced, Layout layout) {
    return new Directions(plot, spaced).choose(layout);
  }

  private Chosen choose(Layout layout) {
    if (layout.rowBearingDeg() != null) {
      Rows rows = Rows.lay(plot, spaced, layout.rowBearingDeg());
      return new Chosen(rows, PlanText.of("plan.direction.asked"), List.of(tried(rows, "asked")));
    }
    Plot.Slope slope = plot.slope();
    if (slope != null && slope.percent() >= CONTOUR_FROM_PERCENT) {
      Rows rows = Rows.lay(plot, spaced, half(slope.downhillDeg() + 90));
      return new Chosen(
          rows,
          PlanText.of("plan.direction.contour", "percent", slope.percent()),
          List.of(tried(rows, "contour")));
    }
    return best();
  }

  private Chosen best() {
    List<Rows> laid = new ArrayList<>();
    List<String> names = new ArrayList<>();
    laid.add(Rows.lay(plot, spaced, half(360 - plot.yAxisBearingDeg())));
    names.add("north");
    List<Double> sides = sides();
    double longest = sides.get(0);
    for (double bearing : sides) {
      boolean same = laid.stream().anyMatch(rows -> apart(rows.bearingDeg, bearing) < 0.5);
      if (same) continue;
      laid.add(Rows.lay(plot, spaced, bearing));
      names.add(apart(bearing, longest) < 0.5 ? "longest" : "side");
    }
    int most = laid.stream().mapToInt(rows -> rows.trees).max().orElse(0);
    int chosen = 0;
    if (laid.get(0).trees < most * (1 - LIGHT_WORTH)) {
      for (int k = laid.size() - 1; k >= 1; k--)
        if (laid.get(k).trees >= most * (1 - LIGHT_WORTH)) chosen = k; // the longest side that does
    }
    List<Tried> tried = new ArrayList<>();
    for (int k = 0; k < laid.size(); k++) tried.add(tried(laid.get(k), names.get(k)));
    return new Chosen(laid.get(chosen), reason(chosen, laid, names, most), List.copyOf(tried));
  }

  private static PlanText reason(int chosen, List<Rows> laid, List<String> names, int most) {
    int own = laid.get(chosen).trees;
    return chosen == 0
        ? PlanText.of("plan.direction.north", "best", own == most, "most", most, "own", own)
        : PlanText.of(
            "plan.direction.side",
            "way",
            PlanText.of("plan.way." + names.get(chosen)),
            "own",
            own,
            "north",
            laid.get(0).trees);
  }

  private static Tried tried(Rows rows, String way) {
    return new Tried(rows.bearingDeg, PlanText.of("plan.way." + way), rows.trees);
  }

  /** Bearings of the longest sides, longest first, each way once. */
  private List<Double> sides() {
    record Side(double lengthM, double bearingDeg) {}
    List<Side> sides = new ArrayList<>();
    List<Point> outline = plot.outline();
    for (int k = 0; k < outline.size(); k++) {
      Point from = outline.get(k);
      Point to = outline.get((k + 1) % outline.size());
      double bearing =
          half(Math.toDegrees(StrictMath.atan2(to.xM() - from.xM(), to.yM() - from.yM())));
      sides.add(new Side(from.to(to), bearing));
    }
    sides.sort(
        java.util.Comparator.comparingDouble((Side s) -> -Math.rint(s.lengthM * 1000))
            .thenComparingDouble(Side::bearingDeg));
    List<Double> bearings = new ArrayList<>();
    for (Side side : sides) {
      if (side.lengthM < LONG_SIDE * sides.get(0).lengthM || bearings.size() == MOST_SIDES) break;
      if (bearings.stream().noneMatch(b -> apart(b, side.bearingDeg) < 0.5))
        bearings.add(side.bearingDeg);
    }
    return bearings;
  }

  /** The same way within 0 to 180 degrees: a row has no front. */
  static double half(double bearing) {
    double turned = ((bearing % 180) + 180) % 180;
    double exact = Math.rint(turned * 1e6) / 1e6;
    return exact == 180 ? 0 : exact;
  }

  private static double apart(double one, double other) {
    double d = Math.abs(half(one) - half(other));
    return Math.min(d, 180 - d);
  }
}
