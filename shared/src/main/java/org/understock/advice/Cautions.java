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
import org.understock.wording.Words;

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
  private final Words words;
  private final List<Advice.Caution> cautions = new ArrayList<>();

  private Cautions(Judging judging) {
    this.judging = judging;
    site = judging.question.site();
    goal = judging.question.goal();
    units = judging.question.units();
    words = Words.in(judging.question.language());
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

  /** A caution whose words are found by its code. */
  private void add(String code, List<String> records, Object... named) {
    say(code, "caution." + code, records, named);
  }

  private void say(String code, String key, List<String> records, Object... named) {
    cautions.add(new Advice.Caution(code, words.say(key, named), List.copyOf(records)));
  }

  private void union(Judging.Pair pair, StockRow stock, VarietyRow variety) {
    Compatibilities.Union union = judging.tables.union(pair.stock(), pair.variety());
    Object[] named = {
      "variety",
      variety.variety().name(),
      "stock",
      stock.stock().name(),
      "interstem",
      Objects.requireNonNullElse(union.interstem(), "none"),
      "others",
      String.join(", ", union.elsewhere())
    };
    if (union.interstem() != null || union.verdicts().contains("needs-interstem"))
      add("interstem-needed", union.records(), named);
    else if (union.verdicts().contains("delayed-incompatible")
        || union.verdicts().contains("incompatible")) add("doubtful-union", union.records(), named);
    else if (!union.known() && !union.elsewhere().isEmpty())
      add("union-not-recorded", union.records(), named);
  }

  private void support(StockRow stock) {
    SupportNeed need = stock.growth().support().need();
    List<String> records = stock.growth().support().records();
    boolean windy = site.wind() == Site.Wind.EXPOSED;
    if (need.likely() == SupportNeed.Level.PERMANENT) add("permanent-support", records);
    else if (need.likely() == SupportNeed.Level.UNTIL_ESTABLISHED || windy)
      add("stake-at-first", records, "windy", windy);
  }

  private void height(StockRow stock, Expectations tree) {
    if (goal.maxHeightM() != null && tree.freeHeightM().median() > 1.15 * goal.maxHeightM()) {
      add(
          "pruning-holds-it",
          stock.growth().size().records(),
          "height",
          units.length(words, tree.freeHeightM().median()));
    }
    if (stock.stock().kind() == Stock.Kind.OWN_ROOTS) return;
    add("graft-union-above-soil", List.of());
  }

  private void water(StockRow stock) {
    Soil.Drainage drainage = site.soil().drainage();
    if (drainage == Soil.Drainage.POORLY_DRAINED || drainage == Soil.Drainage.VERY_POORLY_DRAINED) {
      add("drain-or-mound", List.of());
    }
    LevelDraws drought = stock.levels().get("drought");
    boolean thirsty =
        drought != null && drought.known() && mean(drought, Satisfaction.SUITABILITY) < 0.4;
    if (site.irrigation() == Site.Irrigation.NONE
        && (thirsty || stock.growth().size().value().median() < 0.4)) {
      add(
          "water-in-dry-spells",
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
      add("winter-injury", List.copyOf(records), "night", units.temperature(night));
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
      add("chill-not-on-record", List.of(), "variety", variety.variety().name());
    else if (need.known() && usual < 1.1 * need.median())
      add("chill-marginal", need.records(), "variety", variety.variety().name());
  }

  private void frost(VarietyRow variety) {
    if (judging.frosts == null) return;
    BloomFrosts.Risk risk = judging.frosts.of(variety);
    if (!risk.known() || risk.count() == 0 || risk.share() < FROSTY) return;
    add(
        "frost-at-bloom",
        risk.bloom().records(),
        "variety",
        variety.variety().name(),
        "often",
        BloomFrosts.often(risk));
  }

  private void season(VarietyRow variety) {
    if (site.frostFreeDays() == null || variety.ripening() == null) return;
    double chance = variety.ripening().chance(site.frostFreeDays());
    if (chance >= SAFE_SEASON) return;
    boolean known = variety.ripening().known();
    say(
        "short-season",
        known ? "caution.short-season" : "caution.short-season.unknown",
        variety.ripening().records(),
        "variety",
        variety.variety().name(),
        "failing",
        Math.max(1, Math.round(10 * (1 - chance))));
  }

  private void pollen(VarietyRow variety) {
    PartnerNeed need = judging.tables.pollination.partnerNeed(variety.variety().id());
    String code =
        need.need() == PollenNeed.NEEDS_TWO ? "two-partners-needed" : "pollen-partner-needed";
    if (need.need() == PollenNeed.NEEDS_TWO || need.partnerWanted())
      cautions.add(new Advice.Caution(code, need.text().in(words), need.records()));
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
      add("fire-blight-risk", List.copyOf(records), "variety", variety.variety().name());
    }
    LevelDraws virus = stock.levels().get("latent-virus");
    if (virus != null && virus.known() && mean(virus, Satisfaction.RESISTANCE) < 0.4) {
      add(
          "virus-tested-wood",
          virus.estimate().orElseThrow().support().records(),
          "stock",
          stock.stock().name());
    }
    if (Boolean.TRUE.equals(site.soil().replant())) {
      LevelDraws replant = stock.levels().get("replant-disease");
      if (replant == null || !replant.known() || mean(replant, Satisfaction.RESISTANCE) < 0.6) {
        add(
            "replanted-ground",
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
          suckers.estimate().orElseThrow().support().records(),
          "stock",
          stock.stock().name());
    }
  }

  static double mean(LevelDraws draws, java.util.Map<String, Double> scale) {
    double[] values = Satisfaction.of(draws.trait().levels(), scale);
    double sum = 0;
    for (byte level : draws.draws()) sum += values[level];
    return sum / Draws.COUNT;
  }
}
