package org.understock.planting;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
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

  private void add(String code, Object... named) {
    cautions.add(new Caution(code, PlanText.of("plan." + code, named)));
  }

  private void unions() {
    for (Planned kind : kinds) {
      List<String> verdicts = kind.pairing().unionVerdicts();
      if (kind.pairing().interstem() != null || verdicts.contains("needs-interstem"))
        add(
            "interstem-needed",
            "pairing",
            names(kind),
            "interstem",
            Objects.requireNonNullElse(kind.pairing().interstem(), "none"));
      else if (verdicts.contains("delayed-incompatible") || verdicts.contains("incompatible"))
        add("doubtful-union", "pairing", names(kind));
    }
  }

  private static PlanText names(Planned kind) {
    return PlanText.named(kind.pairing());
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
        add(NO_PARTNER, "variety", variety, "failing", failing);
      } else if (failing > 0) {
        add(
            "partner-too-far",
            "failing",
            failing,
            "variety",
            variety,
            "needed",
            pollen.needed[r] == 2 ? "two" : "one",
            "distance",
            new PlanText.Length(plan.partners().beeDistanceM()));
      }
      if (!none && pollen.unsure[r]) add("pollen-not-known", "variety", variety);
    }
  }

  private void partners() {
    int[] counts = mixed.counts(kinds.size());
    for (int k = 0; k < kinds.size(); k++) {
      if (counts[k] > 0) continue;
      if (kinds.get(k).isPartner())
        add("partner-not-needed", "variety", kinds.get(k).pairing().variety().name());
      else add("no-tree-of-a-share", "pairing", names(kinds.get(k)));
    }
    if (mixed.fewest() > 0) {
      int placed =
          IntStream.range(0, kinds.size())
              .filter(k -> kinds.get(k).isPartner())
              .map(k -> counts[k])
              .sum();
      add(
          "partner-number",
          "fewest",
          mixed.fewest(),
          "proven",
          mixed.fewest() == mixed.bound(),
          "bound",
          mixed.bound(),
          "placed",
          placed,
          "share",
          new PlanText.Share(placed / (double) mixed.trees().size));
    }
  }

  private void room() {
    for (Planned kind : kinds) {
      Expectations tree = kind.pairing().expectations();
      boolean wall = plan.layout().form() == Layout.Form.AGAINST_WALL;
      PlanText.Length height = new PlanText.Length(tree.heightM().median());
      if (!wall && plan.rowM() < tree.rowForLightM() - 0.05)
        add(
            "rows-shade",
            "row",
            new PlanText.Length(plan.rowM()),
            "pairing",
            names(kind),
            "height",
            height);
      if (plan.layout().inRowM() != null && plan.layout().inRowM() < 0.9 * tree.inRowM())
        add(
            "closer-than-advised",
            "pairing",
            names(kind),
            "inRow",
            new PlanText.Length(tree.inRowM()));
      if (plan.layout().form() == Layout.Form.HEDGEROW && !Planner.isNarrow(tree))
        add(
            "too-vigorous-for-hedgerow",
            "pairing",
            names(kind),
            "spread",
            new PlanText.Length(tree.spreadM().median()));
      if (tree.heightM().median() > LADDER_FROM_M)
        add("ladders", "pairing", names(kind), "height", height);
      if (wall) add("flat-training", "pairing", names(kind));
    }
    double widest = kinds.stream().mapToDouble(Planned::widthM).max().orElse(0);
    if (plan.layout().form() != Layout.Form.AGAINST_WALL && plan.boundaryM() < widest / 2 - 0.05) {
      add(
          "crowns-overhang",
          "boundary",
          new PlanText.Length(plan.boundaryM()),
          "reach",
          new PlanText.Length(widest / 2));
    }
    if (plan.clearM() < 0.6 && plan.rows() > 1)
      add(
          "no-way-through",
          "none",
          plan.clearM() <= 0,
          "clear",
          new PlanText.Length(plan.clearM()));
  }

  private void ground() {
    Plot.Slope slope = plan.plot().slope();
    if (slope == null) return;
    if (slope.percent() >= STEEP_PERCENT) add("steep-ground", "percent", slope.percent());
    if (slope.percent() > 0) {
      add(
          "map-distances",
          "percent",
          100 * (Math.sqrt(1 + slope.percent() * slope.percent() / 10_000) - 1));
      add("frost-hollow");
    }
  }

  private void always() {
    add(
        "boundary-rules",
        "boundary",
        new PlanText.Length(
            question.layout().form() == Layout.Form.AGAINST_WALL ? Wall.GAP_M : plan.boundaryM()));
    add("buried-services");
    if (plan.materials().wireM() > 0 || plan.materials().posts() > 0) add("posts-and-wire");
    add("plant-health-rules");
  }
}
