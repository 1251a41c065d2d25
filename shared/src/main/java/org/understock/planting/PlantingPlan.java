package org.understock.planting;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.advice.Pairing;

/**
 * Where every tree stands, what to order and what to put up.
 *
 * @param pairings in the order of the question; trees and order refer to them by index
 * @param rows number of rows
 * @param rowM distance between rows, in m
 * @param inRowM distance in the row, in m: the commonest pairing's
 * @param treesPerHa at these distances, headlands and edges not taken off
 * @param rowBearingDeg way of the rows from the plot's y axis, clockwise, 0 to 180
 * @param direction why the rows run so
 * @param tried the ways that were looked at
 * @param clearM clear width between the crowns of two rows, in m; below 0 where they touch
 * @param boundaryM distance from the outline that was kept, in m
 * @param headlandM free length at the ends of rows that was kept, in m
 * @param farthestPartnerM the farthest that a partner is of a tree that needs one; null when none
 *     needs one or one has none
 */
public record PlantingPlan(
    Plot plot,
    Layout layout,
    List<Pairing> pairings,
    int rows,
    double rowM,
    double inRowM,
    double treesPerHa,
    double rowBearingDeg,
    PlanText direction,
    List<Tried> tried,
    double clearM,
    double boundaryM,
    double headlandM,
    List<Tree> trees,
    List<Ordered> order,
    @Nullable Double farthestPartnerM,
    Partners partners,
    Materials materials,
    List<Caution> cautions) {

  public PlantingPlan {
    pairings = List.copyOf(pairings);
    tried = List.copyOf(tried);
    trees = List.copyOf(trees);
    order = List.copyOf(order);
    cautions = List.copyOf(cautions);
  }

  /**
   * One way that the rows could run.
   *
   * @param trees how many it holds
   */
  public record Tried(double rowBearingDeg, PlanText why, int trees) {}

  /**
   * One tree.
   *
   * @param row from 1, left to right seen along the rows
   * @param position from 1 in its row
   * @param pairing index into the plan's pairings
   * @param partner whether it stands there as a pollen partner of others
   * @param partnerM how far its farthest needed partner is; null when it needs none, or has none
   */
  public record Tree(
      int row,
      int position,
      Point place,
      int pairing,
      boolean partner,
      @Nullable Double partnerM) {}

  /**
   * Trees to order.
   *
   * @param pairing index into the plan's pairings
   * @param count trees that are planted
   * @param spare trees beyond those
   * @param partner whether the pairing is there as a pollen partner
   * @param inRowM distance in the row that the pairing asks for by itself
   */
  public record Ordered(int pairing, int count, int spare, boolean partner, double inRowM) {}

  /**
   * How pollen is provided for.
   *
   * @param beeDistanceM farthest useful partner, in m
   * @param fewest partner trees that distance alone asks for, as found; null when none were to be
   *     placed
   * @param bound no planting does with fewer than this; null when none were to be placed
   * @param leastShare least share of partners that was kept
   * @param failing trees whose partner is too far or missing, by row and position
   * @param arrangement how the pairings are mixed
   */
  public record Partners(
      double beeDistanceM,
      @Nullable Integer fewest,
      @Nullable Integer bound,
      double leastShare,
      List<Place> failing,
      PlanText arrangement) {
    public Partners {
      failing = List.copyOf(failing);
    }

    /**
     * By how much the number could be above the least, as a share of the bound; 0 when it is known
     * to be the least.
     */
    public @Nullable Double gap() {
      return fewest == null || bound == null
          ? null
          : bound == 0 ? 0.0 : (fewest - bound) / (double) bound;
    }
  }

  /** A place in a row. */
  public record Place(int row, int position) {}

  /**
   * What to put up, in pieces and metres.
   *
   * @param stakesForYears stakes that come out when the tree stands
   * @param posts posts, for single trees or along wires
   * @param wireM wire
   * @param guards tree guards
   * @param ties ties
   * @param dripLineM drip line, one along each row
   * @param basis how these were reckoned
   */
  public record Materials(
      int stakesForYears,
      int posts,
      int wires,
      double wireM,
      int guards,
      int ties,
      double dripLineM,
      List<PlanText> basis) {
    public Materials {
      basis = List.copyOf(basis);
    }
  }

  /** What the planter must know. */
  public record Caution(String code, PlanText text) {}
}
