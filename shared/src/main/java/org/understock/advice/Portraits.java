package org.understock.advice;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.understock.climate.ChillNeed;
import org.understock.climate.Springs;
import org.understock.evidence.Grade;
import org.understock.evidence.Source;
import org.understock.evidence.TraitBook;
import org.understock.evidence.TraitRecord;
import org.understock.growth.Part;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.pollination.Partner;
import org.understock.site.Goal;
import org.understock.site.Site;
import org.understock.wording.Language;
import org.understock.wording.Sentence;
import org.understock.wording.Words;

/** Draws the {@link Portrait} of one pairing, each sentence with the records behind it. */
final class Portraits {
  static final int PARTNERS = 6;

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
  private final Words words;
  private final Pairing pairing;
  private final StockRow stock;
  private final VarietyRow variety;
  private final Compatibilities.Union reported;

  Portraits(Judging judging, Pairing pairing) {
    this.judging = judging;
    this.pairing = pairing;
    book = judging.tables.book;
    units = judging.question.units();
    words = Words.in(judging.question.language());
    Judging.Pair pair = judging.pairs.get(0);
    stock = judging.tables.stocks.get(pair.stock());
    variety = judging.tables.varieties.get(pair.variety());
    reported = judging.tables.union(pair.stock(), pair.variety());
  }

  Portrait draw() {
    String id = variety.variety().id();
    PortraitRatings rated = new PortraitRatings(judging, pairing, stock, variety);
    PortraitCare care = new PortraitCare(judging, pairing, stock);
    Portrait bare =
        new Portrait(
            pairing,
            union(),
            stock.growth().size().basis() != Part.Basis.CROP,
            care.supportKnown() ? pairing.expectations().support().likely() : null,
            basis(),
            rated.ratings(),
            rated.unrated(),
            List.of(rated.cold(Portrait.Plant.STOCK), rated.cold(Portrait.Plant.VARIETY)),
            rated.harvest(),
            ChillNeed.of(book, variety.variety()),
            judging.tables.pollination.bloom(id),
            judging.tables.pollination.partnerNeed(id),
            judging.tables.pollination.partners(id, PARTNERS),
            care.all(),
            Cautions.of(judging, 0).stream()
                .filter(caution -> !SAID_ELSEWHERE.contains(caution.code()))
                .toList(),
            Notices.of(Site.UNKNOWN, height(), units, null, words),
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
    Portrait.Union.State state = state();
    String text =
        words.say(
            "portrait.union",
            "state",
            state,
            "variety",
            variety.variety().name(),
            "stock",
            stock.stock().name(),
            "others",
            words.all(first(reported.elsewhere(), 4)),
            "verdicts",
            verdicts(),
            "between",
            Sentence.of(
                "portrait.union.between",
                "interstem",
                Objects.requireNonNullElse(reported.interstem(), "none")));
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

  /** "incompatible and elsewhere compatible"; empty where nothing is reported. */
  private String verdicts() {
    return reported.verdicts().stream()
        .map(verdict -> words.say("portrait.verdict." + verdict))
        .reduce((one, other) -> words.say("reason.union.and-elsewhere", "one", one, "other", other))
        .orElse("");
  }

  private List<String> first(List<String> names, int most) {
    if (names.size() <= most) return names;
    List<String> some = new ArrayList<>(names.subList(0, most));
    some.add(words.say("more", "count", names.size() - most));
    return some;
  }

  private List<Portrait.Basis> basis() {
    List<Portrait.Basis> basis = new ArrayList<>();
    basis.add(basis("height", stock.growth().usualHeightM()));
    basis.add(basis("spread", stock.growth().spreadM()));
    basis.add(basis("first-crop", stock.growth().firstCropYear()));
    basis.add(basis("full-crop", stock.growth().fullCropYear()));
    basis.add(basis("life", stock.growth().lifeYears()));
    basis.add(basis("yield", stock.growth().matureYieldKg()));
    if (!variety.growth().known())
      basis.add(
          new Portrait.Basis(
              "vigour",
              Part.Basis.CROP,
              Grade.D,
              words.say("portrait.basis.vigour", "variety", variety.variety().name()),
              List.of()));
    return basis;
  }

  private Portrait.Basis basis(String figure, Part part) {
    String rests =
        switch (part.basis()) {
          case OWN -> LevelWords.leansOnMemory(book, part.records()) ? "memory" : "own";
          case SIZE -> "size";
          case CROP -> "crop";
        };
    return new Portrait.Basis(
        figure,
        part.basis(),
        part.grade(),
        words.say("portrait.basis", "figure", figure, "basis", rests),
        part.records());
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
  static Question question(Stock stock, Variety variety, Units units, Language language) {
    return new Question(
        variety.crop(),
        Site.UNKNOWN,
        Goal.UNKNOWN,
        new Candidates(
            List.of(), List.of(), List.of(new Candidates.Named(stock.id(), variety.id(), null))),
        1,
        Question.BestPer.PAIRING,
        units,
        Springs.UNKNOWN,
        language);
  }
}
