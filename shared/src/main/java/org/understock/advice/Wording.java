package org.understock.advice;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.understock.growth.Expectations;
import org.understock.growth.LogNormal;
import org.understock.growth.Part;
import org.understock.growth.SupportNeed;
import org.understock.pollination.PartnerNeed;
import org.understock.site.Goal;
import org.understock.site.Site;
import org.understock.wording.Sentence;
import org.understock.wording.Words;

/**
 * Puts one pairing's judgement by one criterion into a sentence that can be read to a grower, with
 * the records behind it.
 */
final class Wording {
  /** A sentence and the ids of the records it leans on. */
  record Said(String text, List<String> records) {}

  private final Judging judging;
  private final Site site;
  private final Goal goal;
  private final Units units;
  private final Words words;
  private final Map<Criterion, Active> active = new HashMap<>();

  /** Circumstances that were told in this answer: the same ones open many sentences. */
  private final Map<Sentence, String> told = new IdentityHashMap<>();

  Wording(Judging judging) {
    this.judging = judging;
    site = judging.question.site();
    goal = judging.question.goal();
    units = judging.question.units();
    words = Words.in(judging.question.language());
    for (Active one : judging.active) active.put(one.criterion(), one);
  }

  Said of(Criterion criterion, int i) {
    Judging.Pair pair = judging.pairs.get(i);
    StockRow stock = judging.tables.stocks.get(pair.stock());
    VarietyRow variety = judging.tables.varieties.get(pair.variety());
    Active one = active.get(criterion);
    if (one != null && one.rated() != null) return rated(one, stock);
    Expectations tree = judging.expectations(i);
    if (criterion == Criteria.SIZE) return size(stock, tree);
    if (criterion == Criteria.EARLY) return early(stock, tree);
    if (criterion == Criteria.YIELD) return crop(stock, tree);
    if (criterion == Criteria.LIFE) return life(stock, tree);
    if (criterion == Criteria.SUPPORT) return support(stock);
    if (criterion == Criteria.RESERVE) return reserve(stock);
    if (criterion == Criteria.MATCH) return match(stock, variety);
    if (criterion == Criteria.COLD) return cold(stock, variety);
    if (criterion == Criteria.CHILL) return chill(variety);
    if (criterion == Criteria.FROST)
      return java.util.Objects.requireNonNull(judging.frosts).said(variety, words);
    if (criterion == Criteria.POLLINATION) return pollination(variety);
    if (criterion == Criteria.VARIETY_DISEASE) return health(variety);
    if (criterion == Criteria.COMPATIBILITY) return union(pair, stock, variety);
    if (criterion == Criteria.SEASON) return season(variety);
    if (criterion == Criteria.TRACK) return track(stock, variety);
    if (criterion == Criteria.AVAILABILITY) return availability(pair.sku());
    throw new IllegalStateException("no words for " + criterion.id());
  }

  private Said availability(@Nullable String sku) {
    return new Said(
        sku == null
            ? words.say("reason.availability")
            : words.say("reason.availability.sku", "sku", sku),
        List.of());
  }

  private Said rated(Active active, StockRow stock) {
    Rated rated = Objects.requireNonNull(active.rated());
    List<String> clauses = new ArrayList<>();
    Set<String> records = new LinkedHashSet<>();
    for (Rated.Part part : rated.parts()) {
      LevelDraws draws = stock.levels().get(part.trait());
      if (draws == null || !judging.tables.stockTraits.containsKey(part.trait())) continue;
      if (!draws.known() && rated.parts().size() > 1 && part.share() < 0.5) continue;
      clauses.add(draws.clause().in(words));
      records.addAll(draws.records());
    }
    return new Said(
        opened(active.bearing().because(), String.join("; ", clauses)), List.copyOf(records));
  }

  private Said size(StockRow stock, Expectations tree) {
    LogNormal height = tree.heightM();
    Double reach = goal.maxHeightM();
    String fit =
        reach == null
            ? "none"
            : height.p90() <= reach
                ? "within"
                : height.median() <= reach ? "mostly" : height.p10() <= reach ? "often" : "above";
    boolean plot = goal.widthM() != null && goal.lengthM() != null;
    boolean flat = plot && PairingJudgement.trainedFlat(goal);
    double side = plot ? PairingJudgement.sideM(goal) : Double.NaN;
    boolean wider = plot && tree.spreadM().median() > side;
    String text =
        words.say(
            "reason.size",
            "height",
            units.lengths(words, height.p10(), height.p90()),
            "spread",
            units.lengths(words, tree.spreadM().p10(), tree.spreadM().p90()),
            "fit",
            fit,
            "reach",
            reach == null ? "" : units.length(words, reach),
            "flat",
            place(flat, reach == null),
            "wider",
            place(wider, reach == null && !flat),
            "side",
            wider ? units.length(words, side) : "");
    return new Said(text + basis(stock.growth().size(), "size"), stock.growth().size().records());
  }

  /** Where in a row of remarks one stands: first, also, or not at all. */
  private static String place(boolean said, boolean first) {
    return !said ? "none" : first ? "first" : "also";
  }

  private Said early(StockRow stock, Expectations tree) {
    Double wanted = goal.firstCropWithinYears();
    String fit =
        wanted == null
            ? "none"
            : tree.firstCropYear().median() <= wanted
                ? "in-time"
                : tree.firstCropYear().p10() <= wanted ? "perhaps" : "later";
    return new Said(
        words.say(
                "reason.early",
                "first",
                years(tree.firstCropYear()),
                "full",
                years(tree.fullCropYear()),
                "fit",
                fit)
            + basis(stock.growth().firstCropYear(), "early"),
        stock.growth().firstCropYear().records());
  }

  private Said crop(StockRow stock, Expectations tree) {
    double ground = tree.inRowM() * tree.rowM();
    LogNormal crop = tree.matureYieldKg();
    return new Said(
        words.say(
                "reason.yield",
                "crop",
                units.masses(words, crop.p10(), crop.p90()),
                "area",
                units.yieldPerArea(words, crop.median() / ground))
            + basis(stock.growth().matureYieldKg(), "yield"),
        stock.growth().matureYieldKg().records());
  }

  private Said life(StockRow stock, Expectations tree) {
    LogNormal life = tree.lifeYears();
    Double wanted = goal.keepForYears();
    String fit =
        wanted == null
            ? "none"
            : life.median() >= wanted ? "enough" : life.p90() >= wanted ? "perhaps" : "short";
    return new Said(
        words.say(
                "reason.life",
                "low",
                Math.round(life.p10()),
                "high",
                Math.round(life.p90()),
                "fit",
                fit)
            + basis(stock.growth().lifeYears(), "life"),
        stock.growth().lifeYears().records());
  }

  private Said support(StockRow stock) {
    SupportNeed need = stock.growth().support().need();
    String wants =
        words.say("reason.support", "need", need.likely(), "stock", stock.stock().name());
    return new Said(opened(bearing(Criteria.SUPPORT), wants), stock.growth().support().records());
  }

  private Said reserve(StockRow stock) {
    double size = stock.growth().size().value().median();
    String text =
        words.say(
            "reason.reserve",
            "vigour",
            size < 0.35 ? "little" : size < 0.55 ? "some" : "enough",
            "stock",
            stock.stock().name());
    return new Said(opened(bearing(Criteria.RESERVE), text), stock.growth().size().records());
  }

  private Said match(StockRow stock, VarietyRow variety) {
    double met = Judging.matchMet(stock, variety);
    String match =
        !variety.growth().known()
            ? "open"
            : met > 0.7
                ? "good"
                : met >= 0.45
                    ? "middling"
                    : variety.growth().lengthFactor().mu() < 0 ? "weak" : "strong";
    return new Said(
        words.say("reason.match", "match", match, "variety", variety.variety().name()),
        variety.growth().records());
  }

  private Said cold(StockRow stock, VarietyRow variety) {
    List<String> known = new ArrayList<>();
    known.add(hardiness(stock.stock().name(), stock.hardy()));
    known.add(hardiness(variety.variety().name(), variety.hardy()));
    Set<String> records = new LinkedHashSet<>(stock.hardy().records());
    records.addAll(variety.hardy().records());
    WinterDraws winters = new WinterDraws(site);
    Double night = winters.usualNightC();
    return new Said(
        opened(night == null ? null : winters.coldest(night, units), String.join("; ", known)),
        List.copyOf(records));
  }

  private String hardiness(String name, Hardy hardy) {
    return words.say(
        "reason.hardiness",
        "known",
        hardy.known(),
        "name",
        name,
        "temperature",
        units.temperature(hardy.meanC()));
  }

  private Said chill(VarietyRow variety) {
    WinterDraws winters = new WinterDraws(site);
    boolean hours = winters.inHours(variety);
    Chilling need = winters.need(variety);
    String text =
        words.say(
            hours ? "reason.chill.hours" : "reason.chill.portions",
            "known",
            need.known(),
            "variety",
            variety.variety().name(),
            "need",
            Math.round(need.median()),
            "low",
            Math.round(need.quantile(0.1)),
            "high",
            Math.round(need.quantile(0.9)));
    return new Said(
        opened(winters.chillKnown() ? winters.because(hours) : null, text), need.records());
  }

  private Said season(VarietyRow variety) {
    Ripening ripening = Objects.requireNonNull(variety.ripening());
    double days = Objects.requireNonNull(site.frostFreeDays());
    return new Said(
        words.say(
            "reason.season",
            "season",
            Math.round(days),
            "known",
            ripening.known(),
            "variety",
            variety.variety().name(),
            "days",
            Math.round(ripening.meanDays()),
            "chance",
            Math.round(100 * ripening.chance(days))),
        ripening.records());
  }

  private Said track(StockRow stock, VarietyRow variety) {
    String text =
        words.say(
            "reason.track",
            "stockVoices",
            stock.track().voices(),
            "stock",
            stock.stock().name(),
            "varietyVoices",
            variety.track().voices(),
            "variety",
            variety.variety().name());
    return new Said(Words.capital(text), List.of());
  }

  private Said pollination(VarietyRow variety) {
    PartnerNeed need = judging.tables.pollination.partnerNeed(variety.variety().id());
    return new Said(need.text().in(words), need.records());
  }

  private Said health(VarietyRow variety) {
    List<String> clauses = new ArrayList<>();
    Set<String> records = new LinkedHashSet<>();
    List<String> unknown = new ArrayList<>();
    List<String> diseases = new ArrayList<>(CropTables.VARIETY_DISEASES);
    diseases.sort(
        Comparator.comparingDouble(
            trait -> -Side.diseaseShare(trait, site))); // those present on the site first
    for (String trait : diseases) {
      LevelDraws draws = variety.levels().get(trait);
      if (draws == null
          || !judging.tables.varietyTraits.containsKey(trait)
          || Side.diseaseShare(trait, site) < 0.1) continue;
      if (!draws.known()) {
        unknown.add(words.say(LevelWords.topic(trait, "the")));
        continue;
      }
      clauses.add((clauses.isEmpty() ? draws.clause() : draws.again()).in(words));
      records.addAll(draws.records());
    }
    if (!unknown.isEmpty())
      clauses.add(
          words.say(
              "reason.health.missing",
              "first",
              clauses.isEmpty(),
              "variety",
              variety.variety().name(),
              "diseases",
              words.any(unknown)));
    return new Said(
        opened(bearing(Criteria.VARIETY_DISEASE), String.join("; ", clauses)),
        List.copyOf(records));
  }

  private Said union(Judging.Pair pair, StockRow stock, VarietyRow variety) {
    Compatibilities.Union union = judging.tables.union(pair.stock(), pair.variety());
    return new Said(union(union, variety.variety().name(), stock.stock().name()), union.records());
  }

  private String union(Compatibilities.Union union, String variety, String stock) {
    if (union.known()) {
      String verdicts =
          union.verdicts().stream()
              .map(verdict -> words.say("verdict." + verdict))
              .reduce(
                  (one, other) ->
                      words.say("reason.union.and-elsewhere", "one", one, "other", other))
              .orElseThrow();
      return words.say(
          "reason.union.reported",
          "variety",
          variety,
          "stock",
          stock,
          "verdicts",
          verdicts,
          "interstem",
          Objects.requireNonNullElse(union.interstem(), "none"));
    }
    return union.elsewhere().isEmpty()
        ? words.say("reason.union.silent", "variety", variety, "stock", stock)
        : words.say(
            "reason.union.elsewhere",
            "variety",
            variety,
            "stock",
            stock,
            "others",
            String.join(", ", union.elsewhere()));
  }

  private @Nullable Sentence bearing(Criterion criterion) {
    Active one = active.get(criterion);
    return one == null ? null : one.bearing().because();
  }

  /** A clause as a sentence, opened by the circumstance that makes it matter. */
  private String opened(@Nullable Sentence because, String clause) {
    return because == null
        ? Words.capital(clause) + "."
        : words.say(
            "because",
            "because",
            told.computeIfAbsent(because, sentence -> sentence.in(words)),
            "clause",
            clause);
  }

  private String years(LogNormal years) {
    long low = Math.round(years.p10());
    long high = Math.round(years.p90());
    return low == high
        ? words.say("years", "years", low)
        : words.say("years.range", "low", low, "high", high);
  }

  /** What the figures rest on, as a sentence more; empty where they are the stock's own. */
  private String basis(Part part, String what) {
    return switch (part.basis()) {
      case OWN -> "";
      case SIZE -> " " + words.say("reason.basis.size", "what", what);
      case CROP -> " " + words.say("reason.basis.crop", "what", what);
    };
  }
}
