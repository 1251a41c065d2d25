package org.understock.advice;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.understock.climate.ExpectedBloom;
import org.understock.climate.SpringFrosts;
import org.understock.climate.Springs;

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
      CropTables crop, Springs told, Map<String, Advice.Assumption> assumed) {
    String label = crop.crop.label().toLowerCase(java.util.Locale.ROOT);
    if (told.measured() == null) {
      if (told.bloom().isEmpty())
        assume(
            assumed,
            "site.bloom",
            "When varieties bloom here was not told; none was judged by frost at bloom.");
      else
        assume(
            assumed,
            "site.temperatures",
            "Bloom was told, but no temperatures that cover springs; no variety was judged by frost at bloom.");
      return null;
    }
    SpringFrosts springs = SpringFrosts.of(crop.book, crop.crop, told.measured(), told.bloom());
    switch (springs.standing()) {
      case KNOWN -> {
        return new BloomFrosts(springs);
      }
      case NO_BLOOM ->
          assume(
              assumed,
              "site.bloom",
              "When any variety of "
                  + label
                  + " blooms here was not told; none was judged by frost at bloom.");
      case NO_SPRING ->
          assume(
              assumed,
              "site.temperatures",
              "The temperatures cover no spring with all nights around bloom; no variety was judged by frost at bloom.");
      case NO_CRITICAL_TEMPERATURES -> {
        if (!told.bloom().isEmpty())
          assume(
              assumed,
              "evidence.frost-at-bloom",
              "Bloom was told, but no critical temperatures of the flowers of "
                  + label
                  + " are in the evidence; frost at bloom did not count.");
      }
    }
    return null;
  }

  private static void assume(Map<String, Advice.Assumption> assumed, String field, String text) {
    assumed.putIfAbsent(field, new Advice.Assumption(field, text));
  }

  /** Author and title behind the critical temperatures. */
  String citation() {
    return springs.citation();
  }

  /** "30 springs were measured", to begin a sentence with. */
  String because() {
    int count = springs.springs(springs.ofUnknown());
    return count == 1 ? "One spring was measured" : count + " springs were measured";
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
  Wording.Said said(VarietyRow variety) {
    Risk risk = of(variety);
    String name = variety.variety().name();
    if (risk.count == 0)
      return new Wording.Said(
          "None of the springs measured holds all nights around the bloom of " + name + ".",
          risk.bloom.records());
    String text =
        risk.known
            ? name
                + " is in full bloom about "
                + day(risk.bloom)
                + switch (risk.bloom.basis()) {
                  case TOLD, CHILL_THEN_HEAT -> "";
                  case OTHER_VARIETY -> ", by the published days between it and a variety told of";
                  case BLOOM_GROUP -> ", by its bloom group and that of a variety told of";
                }
                + ", and frost would have taken its crop in "
                + often(risk)
            : "when "
                + name
                + " blooms is not on record; with bloom anywhere among the crop's varieties frost would have taken the crop in "
                + often(risk);
    return new Wording.Said(because() + ": " + text + ".", risk.bloom.records());
  }

  static String often(Risk risk) {
    if (risk.count == 1) return "it with a chance of " + Math.round(100 * risk.share) + " in 100";
    double of = risk.share * risk.count;
    if (of < 0.05) return "none of them";
    return of < 0.95 ? "less than one of them" : "about " + Math.round(of) + " of " + risk.count;
  }

  /** A day and its month, such as 22 April. */
  private static String day(ExpectedBloom bloom) {
    return bloom.fullBloom().getDayOfMonth()
        + " "
        + bloom
            .fullBloom()
            .getMonth()
            .getDisplayName(java.time.format.TextStyle.FULL, java.util.Locale.ENGLISH);
  }
}
