package org.understock.planting;

import org.jspecify.annotations.Nullable;
import org.understock.site.Goal;
import org.understock.site.Word;
import org.understock.trait.Refusal;

/**
 * How the planting is to be laid out; what is null is chosen.
 *
 * @param access what has to pass between the rows; null for the alleys that are usual in the crop
 * @param rowBearingDeg bearing of the rows from the plot's y axis, clockwise, 0 to 360
 * @param rowM distance between rows, 0.5 to 20 m
 * @param inRowM distance in the row, 0.3 to 20 m
 * @param mostTrees plant no more than this many
 * @param wall the side of the plot on which the wall stands, for trees against a wall
 */
public record Layout(
    @Nullable Form form,
    @Nullable Access access,
    @Nullable Double rowBearingDeg,
    @Nullable Double rowM,
    @Nullable Double inRowM,
    @Nullable Integer mostTrees,
    @Nullable Side wall) {

  /** Most trees of one plan. */
  public static final int MOST_TREES = 30_000;

  public static final Layout USUAL = new Layout(null, null, null, null, null, null, null);

  public Layout {
    if (rowBearingDeg != null)
      Plot.range("layout.rowDirectionDeg", rowBearingDeg, 0, 360, "degrees");
    if (rowM != null) Plot.range("layout.rowSpacingM", rowM, 0.5, 20, "m");
    if (inRowM != null) Plot.range("layout.inRowSpacingM", inRowM, 0.3, 20, "m");
    if (mostTrees != null && (mostTrees < 1 || mostTrees > MOST_TREES)) {
      throw new Refusal.OutOfRange("layout.mostTrees", mostTrees, "between 1 and " + MOST_TREES);
    }
    if (wall != null && form != Form.AGAINST_WALL) {
      throw new Refusal.Conflict(
          "layout.wallSide",
          "layout.wallSide is for layout.form against-wall only; leave it out, or change the form");
    }
  }

  /**
   * With the form that goes with a goal where none is named: a hedgerow for a market orchard on
   * wires, else free-standing trees.
   */
  Layout formed(Goal goal) {
    if (form != null) return this;
    boolean wires =
        goal.support() == Goal.Support.TRELLIS && goal.purpose() == Goal.Purpose.MARKET_ORCHARD;
    return new Layout(
        wires ? Form.HEDGEROW : Form.FREE_STANDING,
        access,
        rowBearingDeg,
        rowM,
        inRowM,
        mostTrees,
        wall);
  }

  /** How the trees stand to one another. */
  public enum Form implements Word {
    /** Crowns meet in the row, and each tree has the room of its spread. */
    FREE_STANDING,
    /** A wall of narrow trees on wires, where the pairing is weak enough for it. */
    HEDGEROW,
    /** Trained flat against a wall or fence: one tree, unless more are asked for. */
    AGAINST_WALL
  }

  /**
   * What passes between the rows, with the width that stays clear between crowns and the headland
   * it turns on, in m. Common practice, no source; tables for home orchards leave 1.5 to 2.4 m
   * between crowns (home-fruit-guidelines-table2, psu-fphg-table4-3).
   */
  public enum Access implements Word {
    ON_FOOT(0.9, 0),
    BARROW(1.2, 0),
    RIDE_ON_MOWER(1.6, 2),
    SMALL_TRACTOR(2.0, 4.5),
    TRACTOR(2.4, 6);

    private final double clearM;
    private final double headlandM;

    Access(double clearM, double headlandM) {
      this.clearM = clearM;
      this.headlandM = headlandM;
    }

    /** Clear width between crowns, in m. */
    public double clearM() {
      return clearM;
    }

    /** Free length at the end of a row, in m. */
    public double headlandM() {
      return headlandM;
    }
  }

  /** A side of the plot by the compass. */
  public enum Side implements Word {
    NORTH,
    EAST,
    SOUTH,
    WEST;

    double bearingDeg() {
      return 90.0 * ordinal();
    }
  }
}
