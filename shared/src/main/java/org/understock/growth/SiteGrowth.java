package org.understock.growth;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.site.Site;
import org.understock.site.Site.Irrigation;
import org.understock.site.Site.Wind;
import org.understock.site.Soil;

/**
 * What a place does to a tree's size, crop and time, beside a middling place.
 *
 * @param lengthFactor factor on height and spread
 * @param yieldFactor factor on the mature crop, size included
 * @param delayFactor factor on the years to the first and the full crop
 * @param exposed whether wind blows freely
 * @param effects what was found, one for each circumstance that moves the tree
 * @param unknown fields of the site that would have moved it, were they known
 */
public record SiteGrowth(
    LogNormal lengthFactor,
    LogNormal yieldFactor,
    LogNormal delayFactor,
    boolean exposed,
    List<Effect> effects,
    List<String> unknown) {

  public SiteGrowth {
    effects = List.copyOf(effects);
    unknown = List.copyOf(unknown);
  }

  /**
   * One circumstance.
   *
   * @param field path of the site's field
   * @param length factor on height and spread
   * @param yield factor on the crop
   * @param delay factor on the years to crop
   * @param source id of the source of the rule; its figure is a judgement where {@code text} says
   *     so; null: common practice, no source
   */
  public record Effect(
      String field,
      double length,
      double yield,
      double delay,
      String text,
      @Nullable String source) {}

  /*
   * No source with a numeric soil or site factor was found. The directions below are published (sources beside them); the
   * figures are judgements, small on purpose, and each carries a doubt of about half its size through SD_KNOWN. A field left unknown adds SD_UNKNOWN:
   * about what the factor varies over ordinary orchards.
   */
  private static final double SD_KNOWN = 0.03;
  private static final double SD_UNKNOWN = 0.05;

  static SiteGrowth of(Site site) {
    List<Effect> effects = new ArrayList<>();
    List<String> unknown = new ArrayList<>();
    Soil soil = site.soil();
    add(
        effects,
        unknown,
        "site.soil.depthCm",
        soil.depthCm() == null ? null : depth(soil.depthCm()));
    add(
        effects,
        unknown,
        "site.soil.fertility",
        soil.fertility() == null ? null : fertility(soil.fertility()));
    add(
        effects,
        unknown,
        "site.soil.texture",
        soil.texture() == null ? null : texture(soil.texture()));
    add(
        effects,
        unknown,
        "site.irrigation",
        site.irrigation() == null ? null : water(site.irrigation(), soil));
    add(
        effects,
        unknown,
        "site.frostFreeDays",
        site.frostFreeDays() == null ? null : season(site.frostFreeDays()));
    add(
        effects,
        unknown,
        "site.soil.replant",
        soil.replant() == null ? null : replant(soil.replant()));
    double length = 1;
    double yield = 1;
    double delay = 1;
    double variance = 0;
    for (Effect e : effects) {
      length *= e.length;
      yield *= e.yield;
      delay *= e.delay;
      variance += SD_KNOWN * SD_KNOWN;
    }
    variance += unknown.size() * SD_UNKNOWN * SD_UNKNOWN;
    double sd = Math.sqrt(variance);
    effects.removeIf(e -> e.length == 1 && e.yield == 1 && e.delay == 1);
    return new SiteGrowth(
        new LogNormal(Math.log(length), sd),
        new LogNormal(Math.log(yield), 1.5 * sd),
        new LogNormal(Math.log(delay), sd),
        site.wind() == Wind.EXPOSED,
        effects,
        unknown);
  }

  private static void add(
      List<Effect> effects, List<String> unknown, String field, @Nullable Effect effect) {
    if (effect == null) unknown.add(field);
    else effects.add(effect);
  }

  /**
   * Full crop on M.9 within 5 years in deep soil and a cool climate, after 7 or more on shallow
   * soil in a hot one.
   */
  private static Effect depth(double cm) {
    double length = between(cm, 40, 0.85, 120, 1.05);
    double delay = between(cm, 40, 1.3, 120, 1.0);
    String text =
        length < 1 ? "Shallow soil keeps trees smaller and later" : "Deep soil lets trees grow";
    return new Effect(
        "site.soil.depthCm", length, Math.pow(length, 1.5), delay, text, "gfg-m9-shortcomings");
  }

  /**
   * Rich soil makes every stock bigger than its table value and needs extra space (no figure
   * given).
   */
  private static Effect fertility(Soil.Fertility fertility) {
    double length =
        switch (fertility) {
          case LOW -> 0.92;
          case MODERATE -> 1;
          case HIGH -> 1.08;
        };
    return new Effect(
        "site.soil.fertility",
        length,
        Math.pow(length, 1.5),
        1,
        length < 1 ? "Poor soil keeps trees smaller" : "Rich soil makes trees bigger",
        "vt-hunnings-1993");
  }

  /**
   * On lighter soil a stock a little stronger than planned is taken, because trees stay smaller
   * there (no figure given).
   */
  private static Effect texture(Soil.Texture texture) {
    double length =
        switch (texture) {
          case SAND -> 0.93;
          case LOAMY_SAND -> 0.96;
          case CLAY, SILTY_CLAY, SANDY_CLAY -> 0.97;
          default -> 1;
        };
    return new Effect(
        "site.soil.texture",
        length,
        Math.pow(length, 1.5),
        1,
        texture.ordinal() <= Soil.Texture.LOAMY_SAND.ordinal()
            ? "Sandy soil keeps trees smaller"
            : "Heavy clay keeps trees smaller",
        "ext-apples-qa");
  }

  /**
   * Common practice, no source: trees without water stay smaller, most on sand; watered trees are
   * the middling ones of trials.
   */
  private static Effect water(Irrigation irrigation, Soil soil) {
    boolean light =
        soil.texture() == Soil.Texture.SAND || soil.texture() == Soil.Texture.LOAMY_SAND;
    double length =
        switch (irrigation) {
          case NONE -> light ? 0.92 : 0.97;
          case OCCASIONAL -> 1;
          case RELIABLE -> 1.02;
        };
    return new Effect(
        "site.irrigation",
        length,
        Math.pow(length, 2),
        1,
        length < 1
            ? "Without watering trees stay smaller and crop less"
            : "Watered trees crop more",
        null);
  }

  /** Spacings of a short season; more where the season is long (no figure given). */
  private static Effect season(double frostFreeDays) {
    double length = between(frostFreeDays, 110, 0.92, 210, 1.05);
    return new Effect(
        "site.frostFreeDays",
        length,
        length,
        1,
        length < 1 ? "A short season keeps trees smaller" : "A long season lets trees grow",
        "umaine-spacing");
  }

  /**
   * Common practice, no source for the figures: trees grow and crop less on old orchard ground, and
   * start later; how much depends on the stock.
   */
  private static Effect replant(boolean replant) {
    return replant
        ? new Effect(
            "site.soil.replant", 0.92, 0.85, 1.1, "Trees grow less on old orchard ground", null)
        : new Effect("site.soil.replant", 1, 1, 1, "", null);
  }

  /** Straight line between two points, level outside them. */
  private static double between(double x, double x0, double y0, double x1, double y1) {
    double share = Math.max(0, Math.min(1, (x - x0) / (x1 - x0)));
    return y0 + share * (y1 - y0);
  }
}
