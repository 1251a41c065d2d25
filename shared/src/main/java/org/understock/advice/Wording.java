package org.understock.advice;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.understock.growth.Expectations;
import org.understock.growth.LogNormal;
import org.understock.growth.Part;
import org.understock.growth.SupportNeed;
import org.understock.pollination.PartnerNeed;
import org.understock.site.Goal;
import org.understock.site.Site;

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

  Wording(Judging judging) {
    this.judging = judging;
    site = judging.question.site();
    goal = judging.question.goal();
    units = judging.question.units();
  }

  Said of(Criterion criterion, int i) {
    Judging.Pair pair = judging.pairs.get(i);
    StockRow stock = judging.tables.stocks.get(pair.stock());
    VarietyRow variety = judging.tables.varieties.get(pair.variety());
    Active active =
        judging.active.stream().filter(a -> a.criterion() == criterion).findFirst().orElse(null);
    if (active != null && active.rated() != null) return rated(active, stock);
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
      return java.util.Objects.requireNonNull(judging.frosts).said(variety);
    if (criterion == Criteria.POLLINATION) return pollination(variety);
    if (criterion == Criteria.VARIETY_DISEASE) return health(variety);
    if (criterion == Criteria.COMPATIBILITY) return union(pair, stock, variety);
    if (criterion == Criteria.SEASON) return season(variety);
    if (criterion == Criteria.TRACK) return track(stock, variety);
    if (criterion == Criteria.AVAILABILITY)
      return new Said(
          pair.sku() == null ? "Not among what is on offer." : "On offer as " + pair.sku() + ".",
          List.of());
    throw new IllegalStateException("no words for " + criterion.id());
  }

  private Said rated(Active active, StockRow stock) {
    Rated rated = java.util.Objects.requireNonNull(active.rated());
    List<String> clauses = new ArrayList<>();
    Set<String> records = new LinkedHashSet<>();
    for (Rated.Part part : rated.parts()) {
      LevelDraws draws = stock.levels().get(part.trait());
      if (draws == null || !judging.tables.stockTraits.containsKey(part.trait())) continue;
      LevelWords.Rating rating = LevelWords.Rating.of(draws);
      if (!draws.known() && rated.parts().size() > 1 && part.share() < 0.5) continue;
      clauses.add(LevelWords.clause(stock.stock(), rated, part.trait(), rating));
      records.addAll(rating.records());
    }
    return new Said(
        opened(active.bearing().because(), String.join("; ", clauses)), List.copyOf(records));
  }

  private Said size(StockRow stock, Expectations tree) {
    LogNormal height = tree.heightM();
    String kept =
        "kept by the usual pruning the tree stands "
            + units.lengths(height.p10(), height.p90())
            + " high and "
            + units.lengths(tree.spreadM().p10(), tree.spreadM().p90())
            + " wide";
    String against = "";
    if (goal.maxHeightM() != null) {
      double wanted = goal.maxHeightM();
      String verdict =
          height.p90() <= wanted
              ? "within"
              : height.median() <= wanted
                  ? "mostly within"
                  : height.p10() <= wanted ? "often above" : "above";
      against = ", " + verdict + " the " + units.length(wanted) + " that can be reached";
    }
    if (goal.widthM() != null && goal.lengthM() != null) {
      double side = PairingJudgement.sideM(goal);
      if (PairingJudgement.trainedFlat(goal))
        against += (against.isEmpty() ? ", " : " and ") + "to be trained flat along the wires";
      if (tree.spreadM().median() > side)
        against +=
            (against.isEmpty() ? ", " : " and ") + "wider than the plot's " + units.length(side);
    }
    return new Said(
        RatedCriteria.capital(kept + against + ".") + basis(stock.growth().size(), "size"),
        stock.growth().size().records());
  }

  private Said early(StockRow stock, Expectations tree) {
    String when =
        "A first crop comes "
            + years(tree.firstCropYear())
            + " after planting, the full crop "
            + years(tree.fullCropYear());
    String against =
        goal.firstCropWithinYears() == null
            ? ""
            : tree.firstCropYear().median() <= goal.firstCropWithinYears()
                ? ", in time for what is wanted"
                : tree.firstCropYear().p10() <= goal.firstCropWithinYears()
                    ? ", perhaps later than wanted"
                    : ", later than wanted";
    return new Said(
        when + against + "." + basis(stock.growth().firstCropYear(), "earliness"),
        stock.growth().firstCropYear().records());
  }

  private Said crop(StockRow stock, Expectations tree) {
    double ground = tree.inRowM() * tree.rowM();
    return new Said(
        "Full-grown it carries about "
            + units.masses(tree.matureYieldKg().p10(), tree.matureYieldKg().p90())
            + " a tree, some "
            + units.yieldPerArea(tree.matureYieldKg().median() / ground)
            + " of the ground it takes in rows."
            + basis(stock.growth().matureYieldKg(), "yield"),
        stock.growth().matureYieldKg().records());
  }

  private Said life(StockRow stock, Expectations tree) {
    LogNormal life = tree.lifeYears();
    String against =
        goal.keepForYears() == null
            ? ""
            : life.median() >= goal.keepForYears()
                ? ", as long as it is wanted"
                : life.p90() >= goal.keepForYears()
                    ? ", perhaps short of what is wanted"
                    : ", short of what is wanted";
    return new Said(
        "It stays productive for about "
            + Units.whole(life.p10())
            + " to "
            + Units.whole(life.p90())
            + " years"
            + against
            + "."
            + basis(stock.growth().lifeYears(), "length of life"),
        stock.growth().lifeYears().records());
  }

  private Said support(StockRow stock) {
    SupportNeed need = stock.growth().support().need();
    String name = stock.stock().name();
    String wants =
        switch (need.likely()) {
          case PERMANENT -> name + " needs a support for life";
          case UNTIL_ESTABLISHED -> name + " wants a stake until it is established";
          case NONE -> name + " stands on its own";
        };
    return new Said(opened(bearing(Criteria.SUPPORT), wants), stock.growth().support().records());
  }

  private Said reserve(StockRow stock) {
    double size = stock.growth().size().value().median();
    String text =
        size < 0.35
            ? "so dwarfing a stock as "
                + stock.stock().name()
                + " forgives little: it wants weed-free, watered, fed ground"
            : size < 0.55
                ? stock.stock().name() + " has some vigour to spare"
                : stock.stock().name() + " is strong enough to shift for itself";
    return new Said(opened(bearing(Criteria.RESERVE), text), stock.growth().size().records());
  }

  private Said match(StockRow stock, VarietyRow variety) {
    double met = Judging.matchMet(stock, variety);
    String text =
        !variety.growth().known()
            ? "How strongly "
                + variety.variety().name()
                + " grows is not on record, so the match with the stock's vigour is open."
            : met > 0.7
                ? "The stock balances the vigour of " + variety.variety().name() + "."
                : met < 0.45
                    ? (variety.growth().lengthFactor().mu() < 0
                        ? variety.variety().name()
                            + " is a weak grower and this stock is weak too: the tree may fail to fill its space."
                        : variety.variety().name()
                            + " is a strong grower and this stock is strong too: it will have to be held in check.")
                    : "Stock and variety are of middling match in vigour.";
    return new Said(text, variety.growth().records());
  }

  private Said cold(StockRow stock, VarietyRow variety) {
    List<String> known = new ArrayList<>();
    known.add(hardiness(stock.stock().name(), stock.hardy()));
    known.add(hardiness(variety.variety().name(), variety.hardy()));
    Set<String> records = new LinkedHashSet<>(stock.hardy().records());
    records.addAll(variety.hardy().records());
    return new Said(
        opened(new WinterDraws(site).coldest(units), String.join("; ", known)),
        List.copyOf(records));
  }

  private String hardiness(String name, Hardy hardy) {
    return hardy.known()
        ? name + " is taken to bear about " + units.temperature(hardy.meanC())
        : "the hardiness of " + name + " is not on record";
  }

  private Said chill(VarietyRow variety) {
    WinterDraws winters = new WinterDraws(site);
    boolean hours = winters.inHours(variety);
    Chilling need = winters.need(variety);
    String unit = hours ? " chilling hours" : " chill portions";
    String text =
        need.known()
            ? variety.variety().name() + " needs about " + Units.whole(need.median()) + unit
            : "how much chill "
                + variety.variety().name()
                + " needs is not on record in this model; varieties of the crop need about "
                + Units.whole(need.quantile(0.1))
                + " to "
                + Units.whole(need.quantile(0.9));
    return new Said(
        opened(winters.chillKnown() ? winters.because(hours) : "", text), need.records());
  }

  private Said season(VarietyRow variety) {
    Ripening ripening = java.util.Objects.requireNonNull(variety.ripening());
    double days = java.util.Objects.requireNonNull(site.frostFreeDays());
    String name = variety.variety().name();
    String text =
        ripening.known()
            ? name + " wants about " + Units.whole(ripening.meanDays()) + " days to ripen"
            : "when " + name + " ripens is not on record";
    return new Said(
        "The season brings "
            + Units.whole(days)
            + " frost-free days: "
            + text
            + "; chance that it ripens here: about "
            + Math.round(100 * ripening.chance(days))
            + " %.",
        ripening.records());
  }

  private static Said track(StockRow stock, VarietyRow variety) {
    return new Said(
        RatedCriteria.capital(
            told(stock.stock().name(), stock.track())
                + ", "
                + told(variety.variety().name(), variety.track())
                + "."),
        List.of());
  }

  private static String told(String name, TrackRecord track) {
    String voices =
        track.voices() == 0
            ? "no published source speaks"
            : track.voices() == 1 ? "one source speaks" : track.voices() + " sources speak";
    return voices + " of " + name;
  }

  /** "a", "a and b", "a, b and c". */
  static String listed(List<String> words) {
    if (words.size() < 2) return String.join("", words);
    return String.join(", ", words.subList(0, words.size() - 1))
        + " and "
        + words.get(words.size() - 1);
  }

  private Said pollination(VarietyRow variety) {
    PartnerNeed need = judging.tables.pollination.partnerNeed(variety.variety().id());
    return new Said(need.text(), need.records());
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
      String topic = trait.replace('-', ' ');
      if (!draws.known()) {
        unknown.add(topic);
        continue;
      }
      LevelWords.Rating rating = LevelWords.Rating.of(draws);
      clauses.add(
          LevelWords.clause(
              clauses.isEmpty() ? variety.variety().name() : "it",
              variety.variety().id(),
              topic,
              rating));
      records.addAll(rating.records());
    }
    if (!unknown.isEmpty())
      clauses.add(
          (clauses.isEmpty() ? "for " + variety.variety().name() + " " : "")
              + "nothing is on record about "
              + String.join(" or ", unknown));
    return new Said(
        opened(bearing(Criteria.VARIETY_DISEASE), String.join("; ", clauses)),
        List.copyOf(records));
  }

  private Said union(Judging.Pair pair, StockRow stock, VarietyRow variety) {
    Compatibilities.Union union = judging.tables.union(pair.stock(), pair.variety());
    String names = variety.variety().name() + " on " + stock.stock().name();
    String text;
    if (!union.known()) {
      text =
          union.elsewhere().isEmpty()
              ? "Nothing is on record against " + names + "."
              : "Whether "
                  + names
                  + " holds is not on record; under "
                  + String.join(", ", union.elsewhere())
                  + " this stock failed.";
    } else {
      text =
          names
              + " is reported "
              + String.join(" and elsewhere ", union.verdicts()).replace('-', ' ')
              + (union.interstem() == null
                  ? ""
                  : "; a piece of " + union.interstem() + " between them helps")
              + ".";
    }
    return new Said(text, union.records());
  }

  private String bearing(Criterion criterion) {
    return judging.active.stream()
        .filter(a -> a.criterion() == criterion)
        .map(a -> a.bearing().because())
        .findFirst()
        .orElse("");
  }

  private static String opened(String because, String clause) {
    return because.isEmpty() ? RatedCriteria.capital(clause) + "." : because + ": " + clause + ".";
  }

  private static String years(LogNormal years) {
    String low = Units.whole(years.p10());
    String high = Units.whole(years.p90());
    return low.equals(high)
        ? (low.equals("1") ? "1 year" : low + " years")
        : low + " to " + high + " years";
  }

  private static String basis(Part part, String what) {
    return switch (part.basis()) {
      case OWN -> "";
      case SIZE ->
          " (Worked out from the size of the tree, as its own " + what + " is not on record.)";
      case CROP ->
          " (Little is known of this stock's " + what + "; the range is that of the crop.)";
    };
  }
}
