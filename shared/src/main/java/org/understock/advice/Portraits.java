package org.understock.advice;

import java.time.LocalDate;
import java.time.format.TextStyle;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.understock.climate.ChillNeed;
import org.understock.evidence.Estimate;
import org.understock.evidence.Grade;
import org.understock.evidence.Source;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.evidence.TraitRecord;
import org.understock.growth.Expectations;
import org.understock.growth.Part;
import org.understock.growth.SupportNeed;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.pollination.Partner;
import org.understock.site.Goal;
import org.understock.site.Site;
import org.understock.wording.Words;

/** Draws the {@link Portrait} of one pairing, each sentence with the records behind it. */
final class Portraits {
  static final int PARTNERS = 6;

  /**
   * Satisfaction from which a stock or variety is said to bear a thing, and up to which to suffer
   * from it: between the words "fair" and "good", "moderately susceptible" and "moderately
   * resistant". A judgement.
   */
  private static final double BEARS = 0.65;

  private static final double SUFFERS = 0.41;

  /** A stock of this size or less, as a share of standard, roots too little to go without water. */
  private static final double SMALL_ROOT = 0.4;

  /** Above this a tree is picked from a ladder (common practice, no source). */
  private static final double LADDER_M = 2.4;

  /** What {@link Cautions} says that a portrait says elsewhere. */
  private static final Set<String> SAID_ELSEWHERE =
      Set.of(
          "interstem-needed",
          "doubtful-union",
          "union-not-recorded",
          "permanent-support",
          "stake-at-first",
          "pruning-holds-it",
          "graft-union-above-soil",
          "water-in-dry-spells",
          "two-partners-needed",
          "pollen-partner-needed",
          "root-suckers");

  private final Judging judging;
  private final TraitBook book;
  private final Units units;
  private final Pairing pairing;
  private final StockRow stock;
  private final VarietyRow variety;
  private final Compatibilities.Union reported;

  Portraits(Judging judging, Pairing pairing) {
    this.judging = judging;
    this.pairing = pairing;
    book = judging.tables.book;
    units = judging.question.units();
    Judging.Pair pair = judging.pairs.get(0);
    stock = judging.tables.stocks.get(pair.stock());
    variety = judging.tables.varieties.get(pair.variety());
    reported = judging.tables.union(pair.stock(), pair.variety());
  }

  Portrait draw() {
    String id = variety.variety().id();
    Portrait bare =
        new Portrait(
            pairing,
            union(),
            stock.growth().size().basis() != Part.Basis.CROP,
            supportKnown() ? pairing.expectations().support().likely() : null,
            basis(),
            ratings(),
            unrated(),
            List.of(cold(Portrait.Plant.STOCK), cold(Portrait.Plant.VARIETY)),
            harvest(),
            ChillNeed.of(book, variety.variety()),
            judging.tables.pollination.bloom(id),
            judging.tables.pollination.partnerNeed(id),
            judging.tables.pollination.partners(id, PARTNERS),
            care(),
            Cautions.of(judging, 0).stream()
                .filter(caution -> !SAID_ELSEWHERE.contains(caution.code()))
                .toList(),
            Notices.of(Site.UNKNOWN, height(), units, null, Words.ENGLISH),
            List.of());
    return new Portrait(
        bare.pairing(),
        bare.union(),
        bare.sizeKnown(),
        bare.support(),
        bare.basis(),
        bare.ratings(),
        bare.unrated(),
        bare.cold(),
        bare.harvest(),
        bare.chill(),
        bare.bloom(),
        bare.pollen(),
        bare.partners(),
        bare.care(),
        bare.cautions(),
        bare.notices(),
        sources(bare));
  }

  private Portrait.Union union() {
    String names = variety.variety().name() + " on " + stock.stock().name();
    Portrait.Union.State state = state();
    String between =
        reported.interstem() == null
            ? " If you want this variety on this stock, an interstem that holds with both is the usual way;"
                + " ask the nursery which."
            : " A source puts a piece of " + reported.interstem() + " between the two.";
    String text =
        switch (state) {
          case HOLDS -> names + " is reported to hold.";
          case NOTHING_AGAINST ->
              "Nothing is on record of this very union, and nothing against it.";
          case NOT_RECORDED ->
              "Whether "
                  + names
                  + " holds is not on record; this stock failed under "
                  + Words.ENGLISH.all(first(reported.elsewhere(), 4))
                  + ".";
          case DOUBTFUL ->
              "The union of "
                  + names
                  + " is in doubt: it is reported "
                  + verdicts()
                  + ". Ask the nursery for its experience.";
          case NEEDS_INTERSTEM -> names + " is reported to need an interstem." + between;
          case FAILS ->
              "Do not graft "
                  + variety.variety().name()
                  + " straight on "
                  + stock.stock().name()
                  + ": the union is reported "
                  + verdicts()
                  + "."
                  + between;
        };
    return new Portrait.Union(state, text, reported.interstem(), reported.records());
  }

  private Portrait.Union.State state() {
    if (pairing.ruledOut()) return Portrait.Union.State.FAILS;
    if (reported.interstem() != null || reported.verdicts().contains("needs-interstem"))
      return Portrait.Union.State.NEEDS_INTERSTEM;
    if (reported.verdicts().contains("delayed-incompatible")
        || reported.verdicts().contains("incompatible")) return Portrait.Union.State.DOUBTFUL;
    if (reported.known()) return Portrait.Union.State.HOLDS;
    return reported.elsewhere().isEmpty()
        ? Portrait.Union.State.NOTHING_AGAINST
        : Portrait.Union.State.NOT_RECORDED;
  }

  /** "incompatible and elsewhere compatible". */
  private String verdicts() {
    return String.join(" and elsewhere ", reported.verdicts())
        .replace("delayed-incompatible", "failing after years")
        .replace('-', ' ');
  }

  private static List<String> first(List<String> names, int most) {
    if (names.size() <= most) return names;
    List<String> some = new ArrayList<>(names.subList(0, most));
    some.add((names.size() - most) + " more");
    return some;
  }

  private List<Portrait.Basis> basis() {
    List<Portrait.Basis> basis = new ArrayList<>();
    basis.add(basis("height", "How high trees on it are kept", stock.growth().usualHeightM()));
    basis.add(basis("spread", "How wide trees on it become", stock.growth().spreadM()));
    basis.add(
        basis("first-crop", "When trees on it begin to bear", stock.growth().firstCropYear()));
    basis.add(
        basis("full-crop", "When trees on it come into full crop", stock.growth().fullCropYear()));
    basis.add(basis("life", "How long trees on it last", stock.growth().lifeYears()));
    basis.add(basis("yield", "What trees on it carry", stock.growth().matureYieldKg()));
    if (!variety.growth().known())
      basis.add(
          new Portrait.Basis(
              "vigour",
              Part.Basis.CROP,
              Grade.D,
              "How strongly "
                  + variety.variety().name()
                  + " grows is not on record; taken as middling.",
              List.of()));
    return basis;
  }

  private Portrait.Basis basis(String figure, String what, Part part) {
    String text =
        switch (part.basis()) {
          case OWN ->
              LevelWords.leansOnMemory(book, part.records())
                  ? what + " rests on memory or common practice, without a published source."
                  : what + " is on record.";
          case SIZE ->
              what
                  + " is not on record; it is taken from the stock's size and the crop's other stocks.";
          case CROP -> what + " is not on record; the range is what is usual in the crop.";
        };
    return new Portrait.Basis(figure, part.basis(), part.grade(), text, part.records());
  }

  private List<Portrait.Rating> ratings() {
    List<Portrait.Rating> ratings = new ArrayList<>();
    for (Rated rated : RatedCriteria.ALL) {
      for (Rated.Part part : rated.parts()) {
        String topic = topic(rated, part.trait());
        rating(Portrait.Plant.STOCK, part.trait(), topic, rated.scale(), ratings);
      }
    }
    rating(Portrait.Plant.STOCK, Hardy.WORD, "winter cold", Satisfaction.SUITABILITY, ratings);
    List<String> ofVariety = new ArrayList<>(CropTables.VARIETY_DISEASES);
    ofVariety.add("fruit-cracking");
    for (String trait : ofVariety)
      rating(
          Portrait.Plant.VARIETY, trait, trait.replace('-', ' '), Satisfaction.RESISTANCE, ratings);
    ratings.sort(
        Comparator.comparing(Portrait.Rating::stand)
            .thenComparing(Portrait.Rating::grade)
            .thenComparing(rating -> -rating.sources()));
    return ratings;
  }

  private static String topic(Rated rated, String trait) {
    return switch (trait) {
      case "suckering" -> "root suckers";
      case "burr-knots" -> "burr knots";
      default -> rated.topic().in(Words.ENGLISH);
    };
  }

  private void rating(
      Portrait.Plant plant,
      String trait,
      String topic,
      Map<String, Double> scale,
      List<Portrait.Rating> into) {
    boolean root = plant == Portrait.Plant.STOCK;
    Subject subject =
        root
            ? new Subject.StockIn(pairing.crop(), stock.stock().id())
            : new Subject.OfVariety(pairing.crop(), variety.variety().id());
    if (!(book.estimate(subject, trait).orElse(null) instanceof Estimate.Levels levels)) return;
    String name = root ? stock.stock().name() : variety.variety().name();
    String id = root ? stock.stock().id() : variety.variety().id();
    double met = LevelWords.mean(levels, scale);
    String word = LevelWords.said(levels);
    String sentence =
        scale == Satisfaction.FEWNESS
            ? name + " makes " + word.replace("none", "no") + " " + topic
            : name
                + (scale == Satisfaction.RESISTANCE ? " is " : " is rated ")
                + word
                + (scale == Satisfaction.RESISTANCE ? " to " : " for ")
                + topic;
    into.add(
        new Portrait.Rating(
            plant,
            trait,
            topic,
            kind(trait, scale),
            met >= BEARS
                ? Portrait.Rating.Stand.BEARS
                : met <= SUFFERS ? Portrait.Rating.Stand.SUFFERS : Portrait.Rating.Stand.MIDDLING,
            word,
            levels.support().sources(),
            levels.support().grade(),
            sentence + " (" + LevelWords.sources(Words.ENGLISH, levels.support(), id) + ").",
            levels.support().records()));
  }

  private static Portrait.Rating.Kind kind(String trait, Map<String, Double> scale) {
    if (trait.equals(Hardy.WORD) || trait.equals("fruit-cracking"))
      return Portrait.Rating.Kind.WEATHER;
    if (scale == Satisfaction.FEWNESS || trait.equals("anchorage"))
      return Portrait.Rating.Kind.ROOT;
    return scale == Satisfaction.RESISTANCE ? Portrait.Rating.Kind.PEST : Portrait.Rating.Kind.SOIL;
  }

  private List<String> unrated() {
    List<String> topics = new ArrayList<>();
    for (Rated rated : RatedCriteria.ALL) {
      for (Rated.Part part : rated.parts()) {
        LevelDraws draws = stock.levels().get(part.trait());
        if (judging.tables.stockTraits.containsKey(part.trait()) && draws != null && !draws.known())
          topics.add(topic(rated, part.trait()));
      }
    }
    return topics;
  }

  private Portrait.Cold cold(Portrait.Plant plant) {
    boolean root = plant == Portrait.Plant.STOCK;
    Hardy hardy = root ? stock.hardy() : variety.hardy();
    String name = root ? stock.stock().name() : variety.variety().name();
    return new Portrait.Cold(
        plant,
        hardy.known() ? (double) Math.round(hardy.meanC()) : null,
        hardy.known()
            ? name
                + " is taken to bear about "
                + units.temperature(hardy.meanC()).in(Words.ENGLISH)
                + " in midwinter."
            : "How much winter cold " + name + " bears is not on record.",
        hardy.records());
  }

  /** The season in words, the part of the month where days were noted, or both. */
  private Portrait.@Nullable Harvest harvest() {
    Subject subject = new Subject.OfVariety(pairing.crop(), variety.variety().id());
    List<String> words = new ArrayList<>();
    Set<String> records = new LinkedHashSet<>();
    if (book.estimate(subject, "harvest-season").orElse(null) instanceof Estimate.Levels levels) {
      words.add(LevelWords.said(levels) + " among " + pairing.crop().word() + " varieties");
      records.addAll(levels.support().records());
    }
    if (book.estimate(subject, "harvest-day").orElse(null) instanceof Estimate.Interval day) {
      words.add("about " + partOfMonth(day.mean()) + " where it was noted");
      records.addAll(day.support().records());
    }
    return words.isEmpty()
        ? null
        : new Portrait.Harvest(String.join(", ", words), List.copyOf(records));
  }

  /** "mid July" for a day of the year. */
  private static String partOfMonth(double dayOfYear) {
    LocalDate day =
        LocalDate.ofYearDay(2023, (int) Math.min(365, Math.max(1, Math.round(dayOfYear))));
    String part = day.getDayOfMonth() <= 10 ? "early" : day.getDayOfMonth() <= 20 ? "mid" : "late";
    return part + " " + day.getMonth().getDisplayName(TextStyle.FULL, Locale.ENGLISH);
  }

  private List<Portrait.Care> care() {
    List<Portrait.Care> care = new ArrayList<>();
    boolean grafted = stock.stock().kind() != Stock.Kind.OWN_ROOTS;
    care.add(
        new Portrait.Care(
            Portrait.Care.Topic.PLANTING,
            grafted
                ? "Plant with the graft union a hand's breadth above the settled soil: if the variety roots,"
                    + " the stock's effect is lost."
                : "The tree stands on its own roots: there is no graft union to keep above the soil.",
            List.of()));
    care.add(support());
    care.add(water());
    Expectations tree = pairing.expectations();
    care.add(
        new Portrait.Care(
            Portrait.Care.Topic.PRUNING,
            "Prune every year to keep it at the size told here; left alone it would grow to about "
                + units.lengths(Words.ENGLISH, tree.freeHeightM().p10(), tree.freeHeightM().p90())
                + " high.",
            stock.growth().freeHeightM().records()));
    LevelDraws suckers = stock.levels().get("suckering");
    if (grafted
        && suckers != null
        && suckers.known()
        && Cautions.mean(suckers, Satisfaction.FEWNESS) < BEARS)
      care.add(
          new Portrait.Care(
              Portrait.Care.Topic.SUCKERS,
              "Pull or cut the root's suckers every summer.",
              suckers.estimate().orElseThrow().support().records()));
    return care;
  }

  private Portrait.Care support() {
    SupportNeed need = pairing.expectations().support();
    List<String> records = stock.growth().support().records();
    if (!supportKnown())
      return new Portrait.Care(
          Portrait.Care.Topic.SUPPORT,
          "Whether it needs support for life is not on record, nor is its size; stake it at first and ask"
              + " the nursery.",
          List.of());
    String text =
        switch (need.likely()) {
          case PERMANENT ->
              "Needs a post or trellis for as long as it stands; without it, it leans or breaks under crop";
          case UNTIL_ESTABLISHED -> "Stake it for its first years";
          case NONE -> "Stands on its own once it has rooted";
        };
    return new Portrait.Care(
        Portrait.Care.Topic.SUPPORT,
        text + (records.isEmpty() ? " (taken from stocks of like size)." : "."),
        records);
  }

  /** Support is told from the size where it is not on record; not where the size is not either. */
  private boolean supportKnown() {
    return !stock.growth().support().records().isEmpty()
        || stock.growth().size().basis() != Part.Basis.CROP;
  }

  private Portrait.Care water() {
    LevelDraws drought = stock.levels().get("drought");
    if (drought != null
        && drought.known()
        && Cautions.mean(drought, Satisfaction.SUITABILITY) < SUFFERS)
      return new Portrait.Care(
          Portrait.Care.Topic.WATER,
          "The stock is poor in dry ground: water in every dry spell, as long as the tree stands.",
          drought.estimate().orElseThrow().support().records());
    if (stock.growth().size().value().median() < SMALL_ROOT)
      return new Portrait.Care(
          Portrait.Care.Topic.WATER,
          "A small root system dries out soon: water in dry spells, and keep grass and weeds off the root.",
          stock.growth().size().records());
    return new Portrait.Care(
        Portrait.Care.Topic.WATER,
        "Water in dry spells for the first two or three summers; keep grass and weeds off the young tree"
            + " (common practice).",
        List.of());
  }

  /**
   * A goal that holds the tree at the height it is likely to reach, for what is said of ladders.
   */
  private Goal height() {
    double high = pairing.expectations().heightM().p90();
    return high > LADDER_M
        ? Goal.UNKNOWN
        : new Goal(null, Math.max(0.5, high), null, null, null, null, null, null, Map.of());
  }

  private List<Source> sources(Portrait portrait) {
    List<Collection<String>> cited = new ArrayList<>();
    cited.add(portrait.union().records());
    portrait.basis().forEach(b -> cited.add(b.records()));
    portrait.ratings().forEach(r -> cited.add(r.records()));
    portrait.cold().forEach(c -> cited.add(c.records()));
    if (portrait.harvest() != null) cited.add(portrait.harvest().records());
    portrait.chill().forEach(c -> cited.add(c.requirement().support().records()));
    cited.add(portrait.bloom().records());
    cited.add(portrait.pollen().records());
    for (Partner partner : portrait.partners()) cited.add(partner.pair().records());
    portrait.care().forEach(c -> cited.add(c.records()));
    portrait.cautions().forEach(c -> cited.add(c.records()));
    Set<String> records = new LinkedHashSet<>();
    cited.forEach(records::addAll);
    Map<String, Integer> counts = new LinkedHashMap<>();
    for (String record : records)
      book.record(record).map(TraitRecord::source).ifPresent(s -> counts.merge(s, 1, Integer::sum));
    for (String source : portrait.pollen().sources()) counts.merge(source, 1, Integer::sum);
    return counts.keySet().stream()
        .sorted(
            Comparator.comparing((String id) -> -counts.getOrDefault(id, 0))
                .thenComparing(id -> id))
        .flatMap(id -> java.util.Optional.ofNullable(book.evidence().sources().get(id)).stream())
        .toList();
  }

  /** The question whose only candidate is the pairing, about no place in particular. */
  static Question question(Stock stock, Variety variety, Units units) {
    return new Question(
        variety.crop(),
        Site.UNKNOWN,
        Goal.UNKNOWN,
        new Candidates(
            List.of(), List.of(), List.of(new Candidates.Named(stock.id(), variety.id(), null))),
        1,
        Question.BestPer.PAIRING,
        units);
  }
}
