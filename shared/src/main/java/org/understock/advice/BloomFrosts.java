package org.understock.advice;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.understock.climate.ExpectedBloom;
import org.understock.climate.SpringFrosts;
import org.understock.climate.Springs;
import org.understock.wording.Sentence;
import org.understock.wording.Words;

/**
 * How often frost at bloom takes the crop of each variety at the place of one request, in every
 * draw.
 *
 * <p>What is not known of a variety's usual day of bloom is drawn for each variety. How far the
 * measured springs stand for those to come is drawn for all varieties alike, by weights over the
 * springs (the Bayesian bootstrap, Rubin 1981) with one spring more, that nobody measured and that
 * is lost for half: without losses the mean is then that of Jeffreys' prior, and a short record
 * says little.
 */
final class BloomFrosts {
  /** Share of springs lost at which nothing is left of the satisfaction; a judgement. */
  private static final double WORST = 0.5;

  private static final double UNMEASURED = 0.5;

  /**
   * One lost crop in more springs than these is told as that; no record is long enough for more.
   */
  private static final int RAREST = 100;

  private final SpringFrosts springs;
  private final double[][] weights;
  private final double[] unmeasured = Draws.exponential("spring that was not measured");
  private final Map<String, Risk> risks = new HashMap<>();

  /**
   * What frost at bloom does to one variety.
   *
   * @param lost share of springs in which the crop is lost, by draw
   * @param known whether anything tells when this very variety blooms
   * @param share share of the measured springs, over what is not known of the bloom
   * @param count number of measured springs that count
   */
  record Risk(double[] lost, ExpectedBloom bloom, boolean known, double share, int count) {
    double[] satisfaction() {
      double[] met = new double[Draws.COUNT];
      for (int d = 0; d < Draws.COUNT; d++) met[d] = Math.max(0, 1 - lost[d] / WORST);
      return met;
    }
  }

  private BloomFrosts(SpringFrosts springs) {
    this.springs = springs;
    int[] years = springs.years();
    weights = new double[years.length][];
    for (int y = 0; y < years.length; y++) weights[y] = Draws.exponential("spring " + years[y]);
  }

  /**
   * Null where nothing can be said; then {@code assumed} is told why, if the asker can do something
   * about it.
   */
  static @Nullable BloomFrosts of(
      CropTables crop, Springs told, Map<String, Bearing.Assumed> assumed) {
    Sentence name = Sentence.of("crop." + crop.crop.id());
    if (told.measured() == null) {
      if (told.bloom().isEmpty()) assume(assumed, "site.bloom", Sentence.of("assumed.bloom"));
      else assume(assumed, "site.temperatures", Sentence.of("assumed.bloom.no-temperatures"));
      return null;
    }
    SpringFrosts springs = SpringFrosts.of(crop.book, crop.crop, told.measured(), told.bloom());
    switch (springs.standing()) {
      case KNOWN -> {
        return new BloomFrosts(springs);
      }
      case NO_BLOOM ->
          assume(assumed, "site.bloom", Sentence.of("assumed.bloom.crop", "crop", name));
      case NO_SPRING ->
          assume(assumed, "site.temperatures", Sentence.of("assumed.bloom.no-spring"));
      case NO_CRITICAL_TEMPERATURES -> {
        if (!told.bloom().isEmpty())
          assume(
              assumed,
              "evidence.frost-at-bloom",
              Sentence.of("assumed.bloom.no-evidence", "crop", name));
      }
    }
    return null;
  }

  private static void assume(Map<String, Bearing.Assumed> assumed, String field, Sentence text) {
    assumed.putIfAbsent(field, new Bearing.Assumed(field, text));
  }

  /** Author and title behind the critical temperatures. */
  String citation() {
    return springs.citation();
  }

  /** "30 springs were measured", to begin a sentence with. */
  Sentence because() {
    return Sentence.of("site.springs", "springs", springs.springs(springs.ofUnknown()));
  }

  Risk of(VarietyRow variety) {
    return risks.computeIfAbsent(variety.variety().id(), id -> risk(variety));
  }

  private Risk risk(VarietyRow variety) {
    Optional<ExpectedBloom> own = springs.bloom(variety.variety());
    ExpectedBloom bloom = own.orElseGet(springs::ofUnknown);
    double[] z = Draws.normal("bloom day of " + variety.variety().id());
    int[] later = new int[Draws.COUNT];
    int from = 0;
    int to = 0;
    for (int d = 0; d < Draws.COUNT; d++) {
      later[d] = (int) Math.round(bloom.doubtDays() * z[d]);
      from = Math.min(from, later[d]);
      to = Math.max(to, later[d]);
    }
    double[][] chances = springs.lost(bloom, from, to);
    double[] lost = new double[Draws.COUNT];
    double share = 0;
    for (int d = 0; d < Draws.COUNT; d++) {
      double[] chance = chances[later[d] - from];
      double sum = UNMEASURED * unmeasured[d];
      double weight = unmeasured[d];
      double plain = 0;
      int count = 0;
      for (int y = 0; y < chance.length; y++) {
        if (Double.isNaN(chance[y])) continue;
        sum += weights[y][d] * chance[y];
        weight += weights[y][d];
        plain += chance[y];
        count++;
      }
      lost[d] = sum / weight;
      share += count == 0 ? 0 : plain / count;
    }
    return new Risk(lost, bloom, own.isPresent(), share / Draws.COUNT, springs.springs(bloom));
  }

  /** One sentence, with the records behind the day of bloom. */
  Wording.Said said(VarietyRow variety, Words words) {
    Risk risk = of(variety);
    String name = variety.variety().name();
    if (risk.count == 0)
      return new Wording.Said(
          words.say("reason.frost.none", "variety", name), risk.bloom.records());
    String basis =
        switch (risk.bloom.basis()) {
          case TOLD, CHILL_THEN_HEAT -> "own";
          case OTHER_VARIETY -> "days";
          case BLOOM_GROUP -> "group";
        };
    String text =
        words.say(
            risk.known ? "reason.frost" : "reason.frost.unknown",
            "variety",
            name,
            "day",
            words.day(risk.bloom.fullBloom()),
            "basis",
            basis,
            "often",
            often(risk));
    return new Wording.Said(
        words.say("because", "because", because(), "clause", text), risk.bloom.records());
  }

  /**
   * In how many of the springs measured the crop would have been lost; where that is less than one
   * (not every day on which the variety may bloom meets a frost), in one of how many.
   */
  static Sentence often(Risk risk) {
    if (risk.count == 1) return Sentence.of("frost.one", "chance", Math.round(100 * risk.share));
    double of = risk.share * risk.count;
    if (of < 0.05) return Sentence.of("frost.none");
    if (of >= 0.95) return Sentence.of("frost.some", "lost", Math.round(of), "springs", risk.count);
    if (risk.share * RAREST < 1) return Sentence.of("frost.rarest", "springs", RAREST);
    double every = 1 / risk.share;
    return Sentence.of(
        "frost.rare", "springs", every < 20 ? Math.round(every) : 5 * Math.round(every / 5));
  }
}
