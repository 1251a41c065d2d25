package org.understock.advice;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.TraitBook;
import org.understock.growth.Growth;
import org.understock.plant.Crop;
import org.understock.plant.Stock;
import org.understock.pollination.Pollination;
import org.understock.site.Goal;
import org.understock.site.Site;
import org.understock.trait.Refusal;
import org.understock.wording.Language;
import org.understock.wording.Sentence;
import org.understock.wording.Words;

/**
 * Answers questions from one trait book. Immutable once made and safe for many threads; a crop's
 * tables are compiled at its first question.
 */
public final class Adviser {
  /**
   * Version of the engine: two answers to one question on one revision are the same bytes when this
   * is the same.
   */
  public static final String ENGINE_VERSION = "1.0.0";

  private final TraitBook book;
  private final Map<Crop, CropTables> tables = new EnumMap<>(Crop.class);
  private final Map<Crop, Growth> growth = new EnumMap<>(Crop.class);

  private Adviser(TraitBook book) {
    this.book = book;
  }

  public static Adviser of(TraitBook book) {
    return new Adviser(book);
  }

  public TraitBook book() {
    return book;
  }

  /** Compiles the tables of every crop now, so that no request has to wait for it. */
  public Adviser warm() {
    for (Crop crop : Crop.values()) tables(crop);
    return this;
  }

  /**
   * @throws Refusal.Unknown for a stock, variety or criterion that is not known
   * @throws Refusal.Conflict for a stock that no evidence ties to the crop, or when nothing can be
   *     weighed
   */
  public Advice advise(Question question) {
    List<Advice.Assumption> assumptions = new ArrayList<>();
    return new Answering(judging(question, assumptions), assumptions).answer();
  }

  /**
   * Only who comes where, without words: cheaper than {@link #advise}, with the same numbers.
   * Refuses what that refuses.
   */
  public Standing stand(Question question) {
    return Standing.of(judging(question, new ArrayList<>()));
  }

  /**
   * What it would be worth, for one question, to know each uncertain thing about its candidates:
   * points by which the first place would on average be better. Only what is worth something is
   * listed, the most first. Refuses what {@link #advise} refuses.
   */
  public List<Stake> stakes(Question question) {
    return new Stakes(judging(question, new ArrayList<>())).all();
  }

  /**
   * One named pairing at a place, towards a goal: whether the union holds, and what is to be
   * expected, by the same reckoning as in {@link #advise}.
   *
   * @param field where the pairing stands, such as {@code trees[0]}; refusals name its {@code
   *     .stock} or {@code .variety}
   * @throws Refusal.Unknown for a stock or variety that is not known
   * @throws Refusal.Conflict for a stock that no evidence ties to the crop
   */
  public Pairing pairing(
      String field, Crop crop, String stockId, String varietyId, Site site, Goal goal) {
    CropTables table = tables(crop);
    int i = stock(table, field + ".stock", stockId);
    int j = variety(table, field + ".variety", varietyId);
    StockRow stock = table.stocks.get(i);
    VarietyRow variety = table.varieties.get(j);
    Compatibilities.Union union = table.union(i, j);
    return new Pairing(
        crop,
        stock.stock(),
        variety.variety(),
        table.growth.expect(stock.growth(), variety.growth(), table.growth.site(site), goal),
        union.chance(),
        union.chance() < Field.RULED_OUT_BELOW,
        union.verdicts(),
        union.interstem(),
        union.records());
  }

  /**
   * All that is on record of one pairing, whatever the place.
   *
   * @param stockId id or usual spelling
   * @param varietyId id or usual spelling
   * @param units units of the texts
   * @throws Refusal.Unknown for a stock or variety that is not known
   * @throws Refusal.Conflict for a stock that no evidence ties to the crop
   */
  public Portrait portrait(
      Crop crop, String stockId, String varietyId, Units units, Language language) {
    Pairing pairing = pairing("pairing", crop, stockId, varietyId, Site.UNKNOWN, Goal.UNKNOWN);
    Question question = Portraits.question(pairing.stock(), pairing.variety(), units, language);
    return new Portraits(judging(question, new ArrayList<>()), pairing).draw();
  }

  Judging judging(Question question, List<Advice.Assumption> assumptions) {
    question.goal().priorities().keySet().forEach(id -> Criteria.get("goal.priorities." + id, id));
    CropTables crop = tables(question.crop());
    Candidates candidates = question.candidates();
    Judging judging = judge(crop, question, pairs(crop, candidates, false), assumptions);
    boolean varietiesOpen = candidates.varieties().isEmpty() && candidates.pairings().isEmpty();
    if (judging.order.isEmpty() && varietiesOpen) {
      assumptions.clear();
      Judging wider = judge(crop, question, pairs(crop, candidates, true), assumptions);
      assumptions.add(
          new Advice.Assumption(
              "candidates.varieties", Words.in(question.language()).say("assumed.every-variety")));
      judging = wider;
    }
    return judging;
  }

  private static Judging judge(
      CropTables crop,
      Question question,
      List<Judging.Pair> pairs,
      List<Advice.Assumption> assumptions) {
    Map<String, Bearing.Assumed> assumed = new TreeMap<>();
    BloomFrosts frosts = BloomFrosts.of(crop, question.springs(), assumed);
    List<Active> active = active(crop, question, pairs, frosts, assumed);
    Words words = Words.in(question.language());
    for (Bearing.Assumed one : assumed.values())
      assumptions.add(new Advice.Assumption(one.field(), one.text().in(words)));
    return new Judging(crop, question, pairs, active, frosts);
  }

  /** Whether trees of a crop grow to the last bit alike by both advisers' books. */
  public boolean growsAlike(Adviser other, Crop crop) {
    return growth(crop).sameAs(other.growth(crop));
  }

  private Growth growth(Crop crop) {
    synchronized (tables) {
      if (growth.isEmpty()) growth.putAll(Growth.all(book)); // the crops share most of the work
      return Objects.requireNonNull(growth.get(crop));
    }
  }

  /** Who pollinates whom in a crop. */
  public Pollination pollination(Crop crop) {
    return tables(crop).pollination;
  }

  private CropTables tables(Crop crop) {
    synchronized (tables) {
      return tables.computeIfAbsent(crop, c -> new CropTables(book, c, growth(c)));
    }
  }

  /**
   * @param everyVariety whether varieties are taken in that are not advised unasked
   */
  private List<Judging.Pair> pairs(CropTables crop, Candidates candidates, boolean everyVariety) {
    List<Judging.Pair> pairs = new ArrayList<>();
    if (candidates.isEmpty()
        || !candidates.stocks().isEmpty()
        || !candidates.varieties().isEmpty()) {
      List<Integer> stocks =
          candidates.stocks().isEmpty()
              ? advised(crop.stocks.size(), i -> crop.stocks.get(i).advised())
              : named(
                  candidates.stocks(), "candidates.stocks", (field, id) -> stock(crop, field, id));
      List<Integer> varieties =
          candidates.varieties().isEmpty()
              ? advised(crop.varieties.size(), j -> everyVariety || crop.varieties.get(j).advised())
              : named(
                  candidates.varieties(),
                  "candidates.varieties",
                  (field, id) -> variety(crop, field, id));
      for (int i : stocks) for (int j : varieties) pairs.add(new Judging.Pair(i, j, null));
    }
    if (candidates.pairings().isEmpty()) return pairs;
    Map<Long, Judging.Pair> joined = new LinkedHashMap<>();
    for (Judging.Pair pair : pairs) joined.put(key(crop, pair), pair);
    for (int k = 0; k < candidates.pairings().size(); k++) {
      Candidates.Named named = candidates.pairings().get(k);
      int i = stock(crop, "candidates.pairings[" + k + "].stock", named.stock());
      int j = variety(crop, "candidates.pairings[" + k + "].variety", named.variety());
      Judging.Pair pair = new Judging.Pair(i, j, named.sku());
      joined.merge(key(crop, pair), pair, (old, now) -> now.sku() == null ? old : now);
    }
    return List.copyOf(joined.values());
  }

  private static long key(CropTables crop, Judging.Pair pair) {
    return (long) pair.stock() * crop.varieties.size() + pair.variety();
  }

  private static List<Integer> advised(int count, java.util.function.IntPredicate advised) {
    return java.util.stream.IntStream.range(0, count).filter(advised).boxed().toList();
  }

  private interface Lookup {
    int of(String field, String id);
  }

  private static List<Integer> named(List<String> ids, String field, Lookup lookup) {
    Set<Integer> indices = new LinkedHashSet<>();
    for (int k = 0; k < ids.size(); k++) indices.add(lookup.of(field + "[" + k + "]", ids.get(k)));
    return List.copyOf(indices);
  }

  private int stock(CropTables crop, String field, String id) {
    Stock stock = book.plants().requireStock(field, id);
    return crop.stock(stock.id())
        .orElseThrow(
            () ->
                new Refusal.Conflict(
                    field,
                    field
                        + ": no evidence ties the stock "
                        + stock.id()
                        + " to "
                        + crop.crop.word()
                        + "; it is known for "
                        + String.join(
                            ", ", stock.crops().stream().map(Crop::id).sorted().toList())));
  }

  private int variety(CropTables crop, String field, String id) {
    return crop.variety(book.plants().requireVariety(field, crop.crop, id).id()).orElseThrow();
  }

  /**
   * The preferences that take part: those that the crop's evidence can tell apart and that matter
   * on this site.
   */
  private static List<Active> active(
      CropTables crop,
      Question question,
      List<Judging.Pair> pairs,
      @Nullable BloomFrosts frosts,
      Map<String, Bearing.Assumed> assumed) {
    List<Active> active = new ArrayList<>();
    for (Criterion criterion : ComputedBearings.RULES.keySet()) {
      if (criterion == Criteria.VARIETY_DISEASE && crop.varietyTraits.isEmpty()) continue;
      enter(
          active,
          assumed,
          new Active(
              criterion,
              ComputedBearings.of(criterion, question.crop(), question.site(), question.goal()),
              null));
    }
    // As weighty where frost is rare: else more frost could raise the score of what escapes it.
    if (frosts != null)
      active.add(new Active(Criteria.FROST, Bearing.told(1, frosts.because()), null));
    for (Rated rated : RatedCriteria.ALL) {
      Bearing bearing = rated.bearing().of(question.crop(), question.site(), question.goal());
      if (rated.parts().stream().noneMatch(part -> crop.stockTraits.containsKey(part.trait()))) {
        if (bearing.relevance() >= 0.5 && bearing.assumption() == null) {
          assumed.put(
              "~" + rated.criterion().id(),
              new Bearing.Assumed(
                  "evidence." + rated.criterion().id(),
                  words -> {
                    String nothing =
                        words.say(
                            "assumed.no-evidence",
                            "crop",
                            Sentence.of("crop." + crop.crop.id()),
                            "topic",
                            rated.topic());
                    Sentence because = bearing.because();
                    return because == null
                        ? Words.capital(nothing)
                        : words.say("but", "because", because, "clause", nothing);
                  }));
        }
        continue;
      }
      enter(active, assumed, new Active(rated.criterion(), bearing, rated));
    }
    season(crop, question.site(), assumed);
    Set<Boolean> offered = new HashSet<>();
    for (Judging.Pair pair : pairs) offered.add(pair.sku() != null);
    if (offered.size() == 2) active.add(new Active(Criteria.AVAILABILITY, Bearing.always(1), null));
    return active;
  }

  private static void season(CropTables crop, Site site, Map<String, Bearing.Assumed> assumed) {
    if (crop.season.known() && site.frostFreeDays() == null) {
      assumed.put(
          "site.frostFreeDays",
          new Bearing.Assumed("site.frostFreeDays", Sentence.of("assumed.season")));
    } else if (!crop.season.known() && site.frostFreeDays() != null) {
      assumed.put(
          "~season",
          new Bearing.Assumed(
              "evidence.season",
              Sentence.of(
                  "assumed.season.no-evidence", "crop", Sentence.of("crop." + crop.crop.id()))));
    }
  }

  private static void enter(List<Active> active, Map<String, Bearing.Assumed> assumed, Active one) {
    Bearing.@Nullable Assumed assumption = one.bearing().assumption();
    if (assumption != null) assumed.putIfAbsent(assumption.field(), assumption);
    if (one.bearing().relevance() > 0) active.add(one);
  }
}
