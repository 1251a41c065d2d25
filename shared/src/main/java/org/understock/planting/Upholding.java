package org.understock.planting;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.growth.SupportNeed;
import org.understock.planting.PlantingPlan.Materials;

/**
 * Reckons what has to be put up: stakes, posts, wires, guards, ties, drip line. The sizes are
 * common practice, no source, unless one is named.
 */
final class Upholding {
  /** Between posts along wires. */
  private static final double POSTS_M = 9;

  /** Wire beyond a row's end for the anchor and for tying, both ends together. */
  private static final double ANCHOR_M = 6;

  /** Lowest wire at 0.6 m (organic-orchard-fruits-handbook); the others so far apart. */
  private static final double LOWEST_M = 0.6;

  private static final double WIRES_M = 0.6;
  private static final int TIES_PER_TREE = 2;

  private Upholding() {}

  static Materials of(Mixed mixed, List<Planned> kinds, Layout.@Nullable Form form) {
    Standing trees = mixed.trees();
    int[] counts = mixed.counts(kinds.size());
    double rowsM = 0;
    double dripM = 0;
    int posts = 0;
    for (int r = 0; r < trees.rowCount(); r++) {
      int first = trees.starts[r];
      int last = trees.starts[r + 1] - 1;
      double length = trees.along[last] - trees.along[first];
      double ends =
          (kinds.get(mixed.kind()[first]).inRowM() + kinds.get(mixed.kind()[last]).inRowM()) / 2;
      rowsM += length + ends;
      dripM += length + ends;
      posts += (int) Math.ceil((length + ends) / POSTS_M - 1e-9) + 1;
    }
    List<PlanText> basis = new ArrayList<>();
    int stakes = 0;
    int single = 0;
    for (int k = 0; k < kinds.size(); k++) {
      SupportNeed.Level level = kinds.get(k).pairing().expectations().support().likely();
      if (level == SupportNeed.Level.UNTIL_ESTABLISHED) stakes += counts[k];
      if (level == SupportNeed.Level.PERMANENT) single += counts[k];
    }
    basis.add(PlanText.of("plan.basis.always"));
    if (form == Layout.Form.HEDGEROW) {
      double height =
          kinds.stream()
              .mapToDouble(k -> k.pairing().expectations().heightM().median())
              .max()
              .orElse(0);
      int wires =
          Math.max(
              2, (int) Math.floor((Math.max(LOWEST_M, height * 0.9) - LOWEST_M) / WIRES_M) + 1);
      basis.add(
          PlanText.of(
              "plan.basis.hedgerow",
              "lowest",
              new PlanText.Length(LOWEST_M),
              "apart",
              new PlanText.Length(WIRES_M),
              "anchor",
              new PlanText.Length(ANCHOR_M),
              "posts",
              new PlanText.Length(POSTS_M)));
      return new Materials(
          0,
          posts,
          wires,
          wires * (rowsM + trees.rowCount() * ANCHOR_M),
          trees.size,
          TIES_PER_TREE * trees.size,
          dripM,
          basis);
    }
    if (form == Layout.Form.AGAINST_WALL) {
      double height =
          kinds.stream()
              .mapToDouble(k -> k.pairing().expectations().heightM().median())
              .max()
              .orElse(0);
      int wires =
          Math.max(
              2, (int) Math.floor((Math.max(LOWEST_M, height * 0.9) - LOWEST_M) / WIRES_M) + 1);
      basis.add(
          PlanText.of(
              "plan.basis.wall",
              "lowest",
              new PlanText.Length(LOWEST_M),
              "apart",
              new PlanText.Length(WIRES_M)));
      return new Materials(
          0, 0, wires, wires * rowsM, trees.size, TIES_PER_TREE * wires * trees.size, dripM, basis);
    }
    basis.add(PlanText.of("plan.basis.stakes"));
    return new Materials(
        stakes, single, 0, 0, trees.size, TIES_PER_TREE * (stakes + single), dripM, basis);
  }
}
