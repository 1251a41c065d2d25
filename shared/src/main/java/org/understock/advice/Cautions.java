package org.understock.advice;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.understock.growth.Expectations;
import org.understock.growth.SupportNeed;
import org.understock.plant.Crop;
import org.understock.plant.Stock;
import org.understock.pollination.PartnerNeed;
import org.understock.pollination.PollenNeed;
import org.understock.site.Goal;
import org.understock.site.Site;
import org.understock.site.Soil;

/**
 * What a grower must be told about a pairing whatever its score: each caution has a code, a
 * sentence and the records behind it.
 */
final class Cautions {
  /**
   * Winters colder than this satisfy nearly every variety, so that an unknown requirement need not
   * be told (common practice, no source).
   */
  private static final double MILD_HOURS = 900;

  private static final double MILD_PORTIONS = 60;

  /** Share of springs with a lost crop from which frost at bloom is told: a judgement. */
  private static final double FROSTY = 0.1;

  /** Chance of ripening below which the season is told as short: a judgement. */
  private static final double SAFE_SEASON = 0.85;

  private final Judging judging;
  private final Site site;
  private final Goal goal;
  private final Units units;
  private final List<Advice.Caution> cautions = new ArrayList<>();

  private Cautions(Judging judging) {
    this.judging = judging;
    site = judging.question.site();
    goal = judging.question.goal();
    units = judging.question.units();
  }

  static List<Advice.Caution> of(Judging judging, int i) {
    Cautions all = new Cautions(judging);
    Judging.Pair pair = judging.pairs.get(i);
    StockRow stock = judging.tables.stocks.get(pair.stock());
    VarietyRow variety = judging.tables.varieties.get(pair.variety());
    Expectations tree = judging.expectations(i);
    all.union(pair, stock, variety);
    all.support(stock);
    all.height(stock, tree);
    all.water(stock);
    all.cold(stock, variety);
    all.chill(variety);
    all.frost(variety);
    all.season(variety);
    all.pollen(variety);
    all.disease(stock, variety);
    all.upkeep(stock);
    return List.copyOf(all.cautions);
  }

  private void add(String code, String text, List<String> records) {
    cautions.add(new Advice.Caution(code, text, List.copyOf(records)));
  }

  private void union(Judging.Pair pair, StockRow stock, VarietyRow variety) {
    Compatibilities.Union union = judging.tables.union(pair.stock(), pair.variety());
    String names = variety.variety().name() + " on " + stock.stock().name();
    if (union.interstem() != null || union.verdicts().contains("needs-interstem")) {
      add(
          "interstem-needed",
          names
              + " wants an interstem between them"
              + (union.interstem() == null ? "" : ", for example " + union.interstem())
              + ".",
          union.records());
    } else if (union.verdicts().contains("delayed-incompatible")
        || union.verdicts().contains("incompatible")) {
      add(
          "doubtful-union",
          "Failure of the union of "
              + names
              + " is on record, sometimes after years; ask the nursery for its experience.",
          union.records());
    } else if (!union.known() && !union.elsewhere().isEmpty()) {
      add(
          "union-not-recorded",
          "Whether "
              + names
              + " holds is not on record; this stock failed under "
              + String.join(", ", union.elsewhere())
              + ".",
          union.records());
    }
  }

  private void support(StockRow stock) {
    SupportNeed need = stock.growth().support().need();
    if (need.likely() == SupportNeed.Level.PERMANENT) {
      add(
          "permanent-support",
          "The tree needs a post or trellis for as long as it stands; without it, it leans or breaks under crop.",
          stock.growth().support().records());
    } else if (need.likely() == SupportNeed.Level.UNTIL_ESTABLISHED
        || site.wind() == Site.Wind.EXPOSED) {
      add(
          "stake-at-first",
          "Stake the tree for its first years"
              + (site.wind() == Site.Wind.EXPOSED ? ", the more so in this wind." : "."),
          stock.growth().support().records());
    }
  }

  private void height(StockRow stock, Expectations tree) {
    if (goal.maxHeightM() != null && tree.freeHeightM().median() > 1.15 * goal.maxHeightM()) {
      add(
          "pruning-holds-it",
          "Left alone it would grow to about "
              + units.length(tree.freeHeightM().median())
              + "; holding it lower takes pruning every year, and pruning moves size only so far.",
          stock.growth().size().records());
    }
    if (stock.stock().kind() == Stock.Kind.OWN_ROOTS) return;
    add(
        "graft-union-above-soil",
        "Plant with the graft union a hand's breadth above the settled soil: if the variety roots, the stock's effect is lost.",
        List.of());
  }

  private void water(StockRow stock) {
    Soil.Drainage drainage = site.soil().drainage();
    if (drainage == Soil.Drainage.POORLY_DRAINED || drainage == Soil.Drainage.VERY_POORLY_DRAINED) {
      add(
          "drain-or-mound",
          "No fruit stock is at home in standing water: drain the ground or plant on mounds or ridges first.",
          List.of());
    }
    LevelDraws drought = stock.levels().get("drought");
    boolean thirsty =
        drought != null && drought.known() && mean(drought, Satisfaction.SUITABILITY) < 0.4;
    if (site.irrigation() == Site.Irrigation.NONE
        && (thirsty || stock.growth().size().value().median() < 0.4)) {
      add(
          "water-in-dry-spells",
          "A small root system dries out soon: water in dry spells, at least while the tree is young.",
          thirsty
              ? Objects.requireNonNull(drought).estimate().orElseThrow().support().records()
              : stock.growth().size().records());
    }
  }

  private void cold(StockRow stock, VarietyRow variety) {
    Double night = new WinterDraws(site).usualNightC();
    if (night == null) return;
    double margin = night - Math.max(stock.hardy().meanC(), variety.hardy().meanC());
    if (margin < 2) {
      Set<String> records = new LinkedHashSet<>(stock.hardy().records());
      records.addAll(variety.hardy().records());
      add(
          "winter-injury",
          "At "
              + units.temperature(night)
              + " this pairing is near the edge of its hardiness; mulch the roots and choose the warmest spot.",
          List.copyOf(records));
    }
  }

  private void chill(VarietyRow variety) {
    WinterDraws winters = new WinterDraws(site);
    if (!winters.chillKnown()) return;
    boolean hours = winters.inHours(variety);
    Chilling need = winters.need(variety);
    double usual = winters.chill(hours, 0.5);
    boolean mild = usual < (hours ? MILD_HOURS : MILD_PORTIONS);
    if (!need.known() && mild)
      add(
          "chill-not-on-record",
          "How much winter chill "
              + variety.variety().name()
              + " needs is not on record in the model given; ask what has fruited nearby.",
          List.of());
    else if (need.known() && usual < 1.1 * need.median())
      add(
          "chill-marginal",
          "Winter chill is near what "
              + variety.variety().name()
              + " needs; in warm winters bloom will be late, long and poor.",
          need.records());
  }

  private void frost(VarietyRow variety) {
    if (judging.frosts == null) return;
    BloomFrosts.Risk risk = judging.frosts.of(variety);
    if (!risk.known() || risk.count() == 0 || risk.share() < FROSTY) return;
    add(
        "frost-at-bloom",
        "Frost would have taken the crop of "
            + variety.variety().name()
            + " in "
            + BloomFrosts.often(risk)
            + " measured springs: plant where cold air drains away, have a way to protect the bloom, or choose one that blooms later.",
        risk.bloom().records());
  }

  private void season(VarietyRow variety) {
    if (site.frostFreeDays() == null || variety.ripening() == null) return;
    double chance = variety.ripening().chance(site.frostFreeDays());
    if (chance >= SAFE_SEASON) return;
    String text =
        variety.ripening().known()
            ? "The season is short for "
                + variety.variety().name()
                + ": in about "
                + Math.max(1, Math.round(10 * (1 - chance)))
                + " of 10 places with so many frost-free days the fruit will not ripen; a warm wall helps."
            : "When "
                + variety.variety().name()
                + " ripens is not on record, and the season is short for many varieties; ask what ripens nearby.";
    add("short-season", text, variety.ripening().records());
  }

  private void pollen(VarietyRow variety) {
    PartnerNeed need = judging.tables.pollination.partnerNeed(variety.variety().id());
    if (need.need() == PollenNeed.NEEDS_TWO)
      add("two-partners-needed", need.text(), need.records());
    else if (need.partnerWanted()) add("pollen-partner-needed", need.text(), need.records());
  }

  private void disease(StockRow stock, VarietyRow variety) {
    LevelDraws own = variety.levels().get("fire-blight");
    LevelDraws root = stock.levels().get("fire-blight");
    boolean blightCrop =
        Set.of(Crop.APPLE, Crop.EUROPEAN_PEAR, Crop.ASIAN_PEAR, Crop.QUINCE)
            .contains(judging.question.crop());
    if (blightCrop
        && own != null
        && own.known()
        && mean(own, Satisfaction.RESISTANCE) < 0.3
        && (root == null || mean(root, Satisfaction.RESISTANCE) < 0.5)) {
      Set<String> records = new LinkedHashSet<>(own.estimate().orElseThrow().support().records());
      if (root != null && root.known())
        records.addAll(root.estimate().orElseThrow().support().records());
      add(
          "fire-blight-risk",
          variety.variety().name()
              + " takes fire blight readily, and blight that runs down into this stock kills the tree.",
          List.copyOf(records));
    }
    LevelDraws virus = stock.levels().get("latent-virus");
    if (virus != null && virus.known() && mean(virus, Satisfaction.RESISTANCE) < 0.4) {
      add(
          "virus-tested-wood",
          stock.stock().name()
              + " fails when the budwood carries viruses that other stocks bear unharmed: insist on virus-tested wood.",
          virus.estimate().orElseThrow().support().records());
    }
    if (Boolean.TRUE.equals(site.soil().replant())) {
      LevelDraws replant = stock.levels().get("replant-disease");
      if (replant == null || !replant.known() || mean(replant, Satisfaction.RESISTANCE) < 0.6) {
        add(
            "replanted-ground",
            "On ground where such trees stood, plant between the old rows and bring in fresh soil or compost; this stock is not known to bear replanting well.",
            replant == null || !replant.known()
                ? List.of()
                : replant.estimate().orElseThrow().support().records());
      }
    }
  }

  private void upkeep(StockRow stock) {
    LevelDraws suckers = stock.levels().get("suckering");
    if (suckers != null && suckers.known() && mean(suckers, Satisfaction.FEWNESS) < 0.4) {
      add(
          "root-suckers",
          stock.stock().name() + " throws suckers from the root; pull or cut them every summer.",
          suckers.estimate().orElseThrow().support().records());
    }
  }

  static double mean(LevelDraws draws, java.util.Map<String, Double> scale) {
    double[] values = Satisfaction.of(draws.trait().levels(), scale);
    double sum = 0;
    for (byte level : draws.draws()) sum += values[level];
    return sum / Draws.COUNT;
  }
}
