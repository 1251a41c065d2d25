package org.understock.planting;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.understock.growth.Expectations;
import org.understock.planting.PlantingPlan.Caution;

/** What whoever plants must be told about a plan. */
final class PlanCautions {
  /** Code of the caution that a variety has no partner in the plan. */
  static final String NO_PARTNER = "no-pollen-partner";

  private static final double LADDER_FROM_M = 2.4;

  /** Fall from which machines are in danger of tipping across it (common practice, no source). */
  private static final double STEEP_PERCENT = 20;

  private final PlantingPlan plan;
  private final PlantingQuestion question;
  private final List<Planned> kinds;
  private final Pollen pollen;
  private final Mixed mixed;
  private final List<Caution> cautions = new ArrayList<>();

  private PlanCautions(
      PlantingPlan plan,
      PlantingQuestion question,
      List<Planned> kinds,
      Pollen pollen,
      Mixed mixed) {
    this.plan = plan;
    this.question = question;
    this.kinds = kinds;
    this.pollen = pollen;
    this.mixed = mixed;
  }

  static PlantingPlan with(
      PlantingPlan plan,
      PlantingQuestion question,
      List<Planned> kinds,
      Pollen pollen,
      Mixed mixed) {
    PlanCautions all = new PlanCautions(plan, question, kinds, pollen, mixed);
    all.unions();
    all.pollen();
    all.partners();
    all.room();
    all.ground();
    all.always();
    return new PlantingPlan(
        plan.plot(),
        plan.layout(),
        plan.pairings(),
        plan.rows(),
        plan.rowM(),
        plan.inRowM(),
        plan.treesPerHa(),
        plan.rowBearingDeg(),
        plan.direction(),
        plan.tried(),
        plan.clearM(),
        plan.boundaryM(),
        plan.headlandM(),
        plan.trees(),
        plan.order(),
        plan.farthestPartnerM(),
        plan.partners(),
        plan.materials(),
        all.cautions);
  }

  private void add(String code, String text) {
    cautions.add(new Caution(code, text));
  }

  private void unions() {
    for (Planned kind : kinds) {
      String names = kind.names();
      if (kind.pairing().interstem() != null
          || kind.pairing().unionVerdicts().contains("needs-interstem")) {
        add(
            "interstem-needed",
            names
                + " wants an interstem between them"
                + (kind.pairing().interstem() == null
                    ? ""
                    : ", for example " + kind.pairing().interstem())
                + ".");
      } else if (kind.pairing().unionVerdicts().contains("delayed-incompatible")
          || kind.pairing().unionVerdicts().contains("incompatible")) {
        add(
            "doubtful-union",
            "Failure of the union of "
                + names
                + " is on record, sometimes after years; ask the nursery for its experience.");
      }
    }
  }

  private void pollen() {
    int[] counts = mixed.counts(kinds.size());
    for (int r = 0; r < kinds.size(); r++) {
      int kind = r;
      if (counts[r] == 0 || pollen.needed[r] == 0) continue;
      int failing = (int) mixed.failing().stream().filter(i -> mixed.kind()[i] == kind).count();
      String variety = kinds.get(r).pairing().variety().name();
      boolean none =
          IntStream.range(0, kinds.size()).noneMatch(d -> pollen.serves[kind][d] && counts[d] > 0);
      if (none) {
        add(
            NO_PARTNER,
            "No variety in the plan is known to pollinate "
                + variety
                + "; "
                + (failing == 1 ? "its tree depends" : "all its " + failing + " trees depend")
                + " on trees beyond the plot.");
      } else if (failing > 0) {
        add(
            "partner-too-far",
            trees(failing)
                + " of "
                + variety
                + " have no "
                + (pollen.needed[r] == 2 ? "two partners" : "partner")
                + " within "
                + Metres.text(plan.partners().beeDistanceM())
                + " m.");
      }
      if (!none && pollen.unsure[r]) {
        add(
            "pollen-not-known",
            "Whether the plan's other varieties pollinate "
                + variety
                + " is not on record; they were counted as if they did.");
      }
    }
  }

  private static String trees(int count) {
    return count + (count == 1 ? " tree" : " trees");
  }

  private void partners() {
    int[] counts = mixed.counts(kinds.size());
    for (int k = 0; k < kinds.size(); k++) {
      if (counts[k] > 0) continue;
      add(
          kinds.get(k).isPartner() ? "partner-not-needed" : "no-tree-of-a-share",
          kinds.get(k).isPartner()
              ? kinds.get(k).pairing().variety().name()
                  + " was named as a pollen partner; no tree of it is needed here, or none that needs one can "
                  + "use it."
              : "The plot holds too few trees for one of "
                  + kinds.get(k).names()
                  + " at its share.");
    }
    if (mixed.fewest() > 0) {
      int placed =
          IntStream.range(0, kinds.size())
              .filter(k -> kinds.get(k).isPartner())
              .map(k -> counts[k])
              .sum();
      add(
          "partner-number",
          "For the distance alone, "
              + mixed.fewest()
              + " partner "
              + (mixed.fewest() == 1 ? "tree does" : "trees do")
              + (mixed.fewest() == mixed.bound()
                  ? ", and no fewer"
                  : "; whatever the pattern, it takes " + mixed.bound() + " or more")
              + ". The plan has "
              + placed
              + " ("
              + Metres.percent(placed / (double) mixed.trees().size)
              + " of the trees); growers plant 5 to 10 % in apple (sheick-2020-apple-s), 10 % or more in sweet cherry (dlr-rlp-cherry-2017), a fifth "
              + "in Japanese plum (bctfpg-plum).");
    }
  }

  private void room() {
    for (Planned kind : kinds) {
      Expectations tree = kind.pairing().expectations();
      boolean wall = plan.layout().form() == Layout.Form.AGAINST_WALL;
      if (!wall && plan.rowM() < tree.rowForLightM() - 0.05) {
        add(
            "rows-shade",
            "Rows "
                + Metres.text(plan.rowM())
                + " m apart shade "
                + kind.names()
                + ", which is kept at about "
                + Metres.text(tree.heightM().median())
                + " m: a tree should be no higher than 1.1 times the row's width (wisc-trv-2023).");
      }
      if (plan.layout().inRowM() != null && plan.layout().inRowM() < 0.9 * tree.inRowM()) {
        add(
            "closer-than-advised",
            kind.names()
                + " is usually given "
                + Metres.text(tree.inRowM())
                + " m in the row; closer, the crowns run into each other.");
      }
      if (plan.layout().form() == Layout.Form.HEDGEROW && !Planner.isNarrow(tree)) {
        add(
            "too-vigorous-for-hedgerow",
            kind.names()
                + " spreads to about "
                + Metres.text(tree.spreadM().median())
                + " m, too wide for a wall of narrow trees; it was given its own width in the row. Take a weaker stock for a hedgerow.");
      }
      if (tree.heightM().median() > LADDER_FROM_M) {
        add(
            "ladders",
            kind.names()
                + " stands about "
                + Metres.text(tree.heightM().median())
                + " m high: it is picked and pruned from a ladder; use a stable orchard "
                + "ladder on firm ground, and not alone.");
      }
      if (wall) {
        add(
            "flat-training",
            "Kept flat against the wall, "
                + kind.names()
                + " is pruned in summer every year; its crop is nearer a third of a "
                + "free tree's, which the plan's yearly figures give (common practice, no source).");
      }
    }
    double widest = kinds.stream().mapToDouble(Planned::widthM).max().orElse(0);
    if (plan.layout().form() != Layout.Form.AGAINST_WALL && plan.boundaryM() < widest / 2 - 0.05) {
      add(
          "crowns-overhang",
          "Trunks stand "
              + Metres.text(plan.boundaryM())
              + " m from the outline, and crowns reach "
              + Metres.text(widest / 2)
              + " m: they will hang over it.");
    }
    if (plan.clearM() < 0.6 && plan.rows() > 1) {
      add(
          "no-way-through",
          "Between full-grown rows "
              + (plan.clearM() <= 0 ? "nothing" : "only " + Metres.text(plan.clearM()) + " m")
              + " stays clear: too little to walk through.");
    }
  }

  private void ground() {
    Plot.Slope slope = plan.plot().slope();
    if (slope == null) return;
    if (slope.percent() >= STEEP_PERCENT) {
      add(
          "steep-ground",
          "On a fall of "
              + Metres.text(slope.percent())
              + " % machines can tip when they drive across it; plan terraces, or work "
              + "by hand.");
    }
    if (slope.percent() > 0) {
      add(
          "map-distances",
          "Distances are those of the map; measured on the ground, up and down the slope, they are "
              + Metres.text(100 * (Math.sqrt(1 + slope.percent() * slope.percent() / 10_000) - 1))
              + " % longer.");
    }
    if (slope.percent() > 0) {
      add(
          "frost-hollow",
          "Cold air flows down and lies where it is held up: leave the lowest edge open, and do not plant in a hollow.");
    }
  }

  private void always() {
    add(
        "boundary-rules",
        "How far trees must stand from a boundary, a road or a line is set by local law and by neighbours' agreements: ask "
            + "before you plant. This plan keeps trunks "
            + Metres.text(
                question.layout().form() == Layout.Form.AGAINST_WALL
                    ? Wall.GAP_M
                    : plan.boundaryM())
            + " m from the outline.");
    add("buried-services", "Before you dig or drive posts, have buried cables and pipes located.");
    if (plan.materials().wireM() > 0 || plan.materials().posts() > 0) {
      add(
          "posts-and-wire",
          "Wire under tension and driven posts can injure: wear eye protection, and have large trellises designed for their load.");
    }
    add(
        "plant-health-rules",
        "Moving trees is regulated in most places: buy certified, virus-tested plants and follow the local plant-health and "
            + "quarantine rules.");
  }
}
