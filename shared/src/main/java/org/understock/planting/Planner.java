package org.understock.planting;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.understock.advice.Adviser;
import org.understock.advice.Pairing;
import org.understock.growth.Density;
import org.understock.growth.Expectations;
import org.understock.plant.Crop;
import org.understock.plant.Plants;
import org.understock.plant.Variety;
import org.understock.planting.PlantingPlan.Ordered;
import org.understock.planting.PlantingPlan.Partners;
import org.understock.planting.PlantingPlan.Place;
import org.understock.planting.PlantingPlan.Tree;
import org.understock.site.Goal;
import org.understock.trait.Refusal;

/** Makes planting plans by what one trait book says. Same question, same plan. */
public final class Planner {
  /*
   * Least shares of partners that are published: sweet cherry at least 10 % (dlr-rlp-cherry-2017), Japanese plum one in five (bctfpg-plum), apple 5
   * to
   * 10 % (sheick-2020-apple-s). For the other crops apple's is taken (common practice, no source).
   */
  private static final Map<Crop, Double> LEAST_SHARE =
      Map.of(Crop.SWEET_CHERRY, 0.10, Crop.JAPANESE_PLUM, 0.20);
  private static final double USUAL_LEAST_SHARE = 0.05;

  /** A pairing of few trees that others lean on is marked as a partner. */
  private static final double FEW = 0.25;

  private final Adviser adviser;

  private Planner(Adviser adviser) {
    this.adviser = adviser;
  }

  public static Planner of(Adviser adviser) {
    return new Planner(adviser);
  }

  /**
   * @throws Refusal.Unknown for a stock or variety that is not known
   * @throws Refusal.Conflict when a union fails, no tree has room, or more than {@link
   *     Layout#MOST_TREES} would have
   */
  public PlantingPlan plan(PlantingQuestion question) {
    List<Planned> kinds = kinds(question);
    Layout layout = question.layout();
    double rowM =
        layout.rowM() != null
            ? layout.rowM()
            : kinds.stream().mapToDouble(Planned::rowM).max().orElseThrow();
    double widthM = kinds.stream().mapToDouble(Planned::widthM).max().orElseThrow();
    double boundaryM =
        question.plot().boundaryM() != null ? question.plot().boundaryM() : widthM / 2;
    double headlandM = headland(question);
    Rows.Spaced spaced =
        new Rows.Spaced(rowM, Mixing.laidFor(kinds), boundaryM, widthM / 2, headlandM);
    Directions.Chosen chosen = direction(question, spaced);
    double leastShare =
        question.pollen().leastShare() != null ? question.pollen().leastShare() : leastShare(kinds);
    Pollen pollen = Pollen.of(kinds, adviser::pollination);
    Mixing mixing =
        new Mixing(chosen.rows(), kinds, pollen, question.pollen().beeDistanceM(), leastShare);
    Mixed mixed = mixing.mix(most(question, chosen.rows()));
    return plan(question, kinds, spaced, chosen, pollen, mixed, leastShare);
  }

  private Directions.Chosen direction(PlantingQuestion question, Rows.Spaced spaced) {
    Plot plot = question.plot();
    if (question.layout().form() == Layout.Form.AGAINST_WALL) {
      Layout.Side side =
          question.layout().wall() != null ? question.layout().wall() : Wall.usual(question.site());
      Rows rows = Wall.row(plot, side, spaced.inRowM());
      return new Directions.Chosen(
          rows,
          PlanText.of("plan.direction.wall", "side", side),
          List.of(
              new PlantingPlan.Tried(
                  Directions.half(rows.bearingDeg), PlanText.of("plan.way.wall"), rows.trees)));
    }
    double roughly = plot.areaM2() / (spaced.rowM() * spaced.inRowM());
    if (roughly > 2.0 * Layout.MOST_TREES) throw tooMany(roughly);
    Directions.Chosen chosen = Directions.choose(plot, spaced, question.layout());
    if (chosen.rows().trees == 0) {
      throw new Refusal.Conflict(
          "plot",
          "no tree has room: one wants "
              + Metres.text(2 * spaced.boundaryM())
              + " m of width"
              + (spaced.headlandM() > 0
                  ? " and "
                      + Metres.text(spaced.headlandM())
                      + " m of headland at both ends of its row"
                  : "")
              + ", and the plot is "
              + Metres.text(plot.areaM2())
              + " m²; take a weaker stock, a lower plot.boundaryM or plot.headlandM, or layout.form against-wall");
    }
    return chosen;
  }

  private static Refusal tooMany(double trees) {
    return new Refusal.Conflict(
        "plot",
        "the plot would hold about "
            + Math.round(trees)
            + " trees, and a plan may have "
            + Layout.MOST_TREES
            + "; plan it in parts");
  }

  private static int most(PlantingQuestion question, Rows rows) {
    Integer asked = question.layout().mostTrees();
    if (question.layout().form() == Layout.Form.AGAINST_WALL)
      return Math.min(rows.trees, asked == null ? question.trees().size() : asked);
    if (asked == null && rows.trees > Layout.MOST_TREES) throw tooMany(rows.trees);
    return Math.min(Layout.MOST_TREES, asked == null ? Layout.MOST_TREES : asked);
  }

  private static double headland(PlantingQuestion question) {
    if (question.plot().headlandM() != null) return question.plot().headlandM();
    Layout.Access access = question.layout().access();
    return access == null ? 0 : access.headlandM();
  }

  private List<Planned> kinds(PlantingQuestion question) {
    boolean shared = question.trees().stream().anyMatch(t -> t.share() != null);
    List<Planned> kinds = new ArrayList<>();
    for (int k = 0; k < question.trees().size(); k++) {
      PlantingQuestion.Wanted wanted = question.trees().get(k);
      String field = "trees[" + k + "]";
      Pairing pairing =
          adviser.pairing(
              field,
              crop(field + ".variety", wanted.variety()),
              wanted.stock(),
              wanted.variety(),
              question.site(),
              goal(question));
      if (pairing.ruledOut()) throw failing(field, pairing);
      for (Planned earlier : kinds) {
        if (earlier.pairing().stock().equals(pairing.stock())
            && earlier.pairing().variety().equals(pairing.variety())) {
          throw new Refusal.Conflict(
              field,
              field
                  + ": "
                  + pairing.names()
                  + " stands in the list already; give it once with the sum of the shares");
        }
      }
      Double share = shared ? wanted.share() : Double.valueOf(1.0 / question.trees().size());
      kinds.add(planned(pairing, share, question.layout()));
    }
    return List.copyOf(kinds);
  }

  private static Refusal failing(String field, Pairing pairing) {
    String way =
        pairing.interstem() != null
            ? "put an interstem of " + pairing.interstem() + " between them"
            : "ask the nursery for a tree with an interstem that both take, or take another stock";
    return new Refusal.Conflict(
        field + ".stock",
        field + ".stock: the union of " + pairing.names() + " fails by what is published; " + way);
  }

  private static Planned planned(Pairing pairing, @Nullable Double share, Layout layout) {
    Expectations tree = pairing.expectations();
    double spread = tree.spreadM().median();
    double inRow = layout.inRowM() != null ? layout.inRowM() : tree.inRowM();
    boolean narrow = layout.form() == Layout.Form.HEDGEROW && isNarrow(tree);
    double width = narrow ? Math.max(1, tree.inRowM()) : spread;
    double row =
        layout.access() == null
            ? tree.rowM()
            : Metres.up(Math.max(width + layout.access().clearM(), tree.rowForLightM()));
    return new Planned(pairing, share, inRow, row, width);
  }

  /**
   * Whether the pairing stays narrow enough for a hedgerow: expectations then plant it closer than
   * its spread.
   */
  static boolean isNarrow(Expectations tree) {
    return tree.inRowM() < 0.8 * tree.spreadM().median();
  }

  /** For a hedgerow the distances are those of a market orchard on wires. */
  private static Goal goal(PlantingQuestion question) {
    Goal goal = question.goal();
    if (question.layout().form() != Layout.Form.HEDGEROW) {
      boolean wires = goal.support() == Goal.Support.TRELLIS;
      return wires ? with(goal, goal.purpose(), null) : goal;
    }
    return with(goal, Goal.Purpose.MARKET_ORCHARD, Goal.Support.TRELLIS);
  }

  private static Goal with(
      Goal goal, Goal.@Nullable Purpose purpose, Goal.@Nullable Support support) {
    return new Goal(
        purpose,
        goal.maxHeightM(),
        goal.widthM(),
        goal.lengthM(),
        goal.firstCropWithinYears(),
        goal.keepForYears(),
        goal.care(),
        support,
        goal.priorities());
  }

  /** The one crop of which this is a variety. */
  Crop crop(String field, String variety) {
    Plants plants = adviser.book().plants();
    Optional<Crop> exact = plants.variety(variety).map(Variety::crop);
    if (exact.isPresent()) return exact.get();
    List<Crop> crops =
        Arrays.stream(Crop.values())
            .filter(crop -> plants.resolveVariety(crop, variety).isPresent())
            .toList();
    if (crops.isEmpty())
      throw new Refusal.Unknown(field, variety, plants.nearestVarieties(variety));
    if (crops.size() > 1) {
      throw new Refusal.Conflict(
          field,
          field
              + ": '"
              + variety
              + "' is a variety of "
              + String.join(", ", crops.stream().map(Crop::id).toList())
              + "; give its id");
    }
    return crops.get(0);
  }

  private static double leastShare(List<Planned> kinds) {
    return kinds.stream()
        .filter(k -> !k.isPartner())
        .mapToDouble(k -> LEAST_SHARE.getOrDefault(k.pairing().crop(), USUAL_LEAST_SHARE))
        .max()
        .orElse(0);
  }

  private static PlantingPlan plan(
      PlantingQuestion question,
      List<Planned> kinds,
      Rows.Spaced spaced,
      Directions.Chosen chosen,
      Pollen pollen,
      Mixed mixed,
      double leastShare) {
    Standing standing = mixed.trees();
    int[] counts = mixed.counts(kinds.size());
    boolean[] partners = partners(kinds, counts, standing.size, pollen);
    List<Tree> trees = new ArrayList<>(standing.size);
    List<Place> failing = new ArrayList<>();
    for (int i = 0; i < standing.size; i++) {
      double m = mixed.partnerM()[i];
      trees.add(
          new Tree(
              standing.row[i],
              standing.position(i),
              standing.place(i),
              mixed.kind()[i],
              partners[mixed.kind()[i]],
              Double.isFinite(m) ? Double.valueOf(m) : null));
      if (mixed.failing().get(i)) failing.add(new Place(standing.row[i], standing.position(i)));
    }
    List<Ordered> order = new ArrayList<>();
    int commonest = 0;
    for (int k = 0; k < kinds.size(); k++) {
      if (counts[k] > counts[commonest]) commonest = k;
      int spare =
          counts[k] == 0 ? 0 : (int) Math.ceil(counts[k] * question.sparePercent() / 100 - 1e-9);
      order.add(new Ordered(k, counts[k], spare, partners[k], kinds.get(k).inRowM()));
    }
    boolean even = Mixing.isEven(kinds);
    double inRowM = even ? spaced.inRowM() : kinds.get(commonest).inRowM();
    boolean asked = kinds.stream().anyMatch(Planned::isPartner);
    Partners pollination =
        new Partners(
            question.pollen().beeDistanceM(),
            asked ? Integer.valueOf(mixed.fewest()) : null,
            asked ? Integer.valueOf(mixed.bound()) : null,
            asked ? leastShare : 0,
            failing,
            arrangement(kinds, mixed));
    double farthest = mixed.farthestM();
    PlantingPlan bare =
        new PlantingPlan(
            question.plot(),
            question.layout(),
            kinds.stream().map(Planned::pairing).toList(),
            standing.rowCount(),
            spaced.rowM(),
            inRowM,
            Density.rectangular(spaced.rowM(), inRowM),
            Directions.half(chosen.rows().bearingDeg),
            chosen.reason(),
            chosen.tried(),
            spaced.rowM() - 2 * spaced.holeM(),
            spaced.boundaryM(),
            spaced.headlandM(),
            trees,
            order,
            Double.isFinite(farthest) ? Double.valueOf(farthest) : null,
            pollination,
            Upholding.of(mixed, kinds, question.layout().form()),
            List.of());
    return PlanCautions.with(bare, question, kinds, pollen, mixed);
  }

  private static boolean[] partners(List<Planned> kinds, int[] counts, int all, Pollen pollen) {
    boolean[] partners = new boolean[kinds.size()];
    for (int d = 0; d < partners.length; d++) {
      partners[d] = kinds.get(d).isPartner();
      for (int r = 0; r < partners.length && !partners[d]; r++) {
        partners[d] =
            counts[d] <= FEW * all
                && counts[r] > counts[d]
                && pollen.needed[r] > 0
                && pollen.second[r][d];
      }
    }
    return partners;
  }

  private static PlanText arrangement(List<Planned> kinds, Mixed mixed) {
    if (kinds.size() == 1) return PlanText.of("plan.arrangement.one");
    if (mixed.fewest() > 0) {
      int[] counts = mixed.counts(kinds.size());
      int placed =
          IntStream.range(0, kinds.size())
              .filter(k -> kinds.get(k).isPartner())
              .map(k -> counts[k])
              .sum();
      return placed > mixed.fewest()
          ? PlanText.of("plan.arrangement.share")
          : PlanText.of("plan.arrangement.fewest");
    }
    return mixed.wholeRows()
        ? PlanText.of("plan.arrangement.rows")
        : PlanText.of("plan.arrangement.spread");
  }
}
