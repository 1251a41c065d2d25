package org.understock.advice;

import static org.understock.advice.Rated.Side.STOCK;
import static org.understock.advice.Satisfaction.FEWNESS;
import static org.understock.advice.Satisfaction.RESISTANCE;
import static org.understock.advice.Satisfaction.SUITABILITY;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.understock.site.Goal;
import org.understock.site.Site;
import org.understock.site.Soil;
import org.understock.wording.Sentence;

/**
 * The criteria that rest on levels given to stocks. How far each matters is read off the site: an
 * input that is missing leaves a small relevance and is named as an assumption, because a fault
 * that nobody asked about can still kill the tree.
 */
final class RatedCriteria {
  private static final Set<Soil.Texture> HEAVY =
      EnumSet.of(
          Soil.Texture.CLAY,
          Soil.Texture.SILTY_CLAY,
          Soil.Texture.SANDY_CLAY,
          Soil.Texture.CLAY_LOAM,
          Soil.Texture.SILTY_CLAY_LOAM);
  private static final Set<Soil.Texture> LIGHT =
      EnumSet.of(Soil.Texture.SAND, Soil.Texture.LOAMY_SAND, Soil.Texture.SANDY_LOAM);

  static final List<Rated> ALL = all();

  private RatedCriteria() {}

  private static List<Rated> all() {
    List<Rated> all = new ArrayList<>();
    all.add(suited(Criteria.ANCHORAGE, RatedCriteria::wind));
    all.add(suited(Criterion.both("wet-soil"), (site, goal) -> wetness(site)));
    all.add(suited(Criterion.both("drought"), (site, goal) -> dryness(site)));
    all.add(suited(Criterion.both("heavy-soil"), (site, goal) -> texture(site, HEAVY)));
    all.add(suited(Criterion.both("light-soil"), (site, goal) -> texture(site, LIGHT)));
    all.add(suited(Criterion.both("lime-high-ph"), (site, goal) -> lime(site)));
    all.add(suited(Criterion.both("salinity"), (site, goal) -> salt(site)));
    all.add(
        new Rated(
            Criterion.preference("upkeep"),
            STOCK,
            List.of(new Rated.Part("suckering", 0.75), new Rated.Part("burr-knots", 0.25)),
            FEWNESS,
            (crop, site, goal) -> Bearing.always(1)));
    all.add(pest("fire-blight", 0.35, null));
    all.add(pest("crown-rot-phytophthora", 0.3, RatedCriteria::wetness));
    all.add(pest("replant-disease", 0.15, RatedCriteria::replant));
    all.add(pest("woolly-apple-aphid", 0.15, null));
    all.add(pest("root-knot-nematode", 0.15, null));
    all.add(pest("ring-nematode", 0.15, null));
    all.add(pest("lesion-nematode", 0.1, null));
    all.add(pest("bacterial-canker", 0.2, null));
    all.add(pest("oak-root-fungus", 0.05, null));
    all.add(pest("verticillium", 0.1, null));
    all.add(pest("crown-gall", 0.1, null));
    all.add(pest("pear-decline", 0.25, null));
    all.add(pest("woolly-pear-aphid", 0.1, null));
    all.add(pest("latent-virus", 0.2, null));
    return List.copyOf(all);
  }

  /**
   * A pest or disease of the stock: full weight when the site lists it, a little when nothing was
   * said of pressures at all, and next to none when pressures were listed and this one is not among
   * them.
   */
  private static Rated pest(String trait, double untold, @Nullable SiteRule alsoBy) {
    return Rated.of(
        Criterion.both(trait),
        STOCK,
        trait,
        RESISTANCE,
        (crop, site, goal) -> {
          if (site.pressures().contains(trait))
            return Bearing.told(1, Sentence.of("site.pest." + trait));
          Bearing other = alsoBy == null ? Bearing.NONE : alsoBy.of(site);
          boolean silent = site.pressures().isEmpty();
          double least = silent ? untold : untold / 4;
          if (other.relevance() > least && other.assumption() == null) return other;
          return silent
              ? Bearing.assumed(
                  Math.max(least, other.assumption() == null ? 0 : least),
                  "site.pressures",
                  Sentence.of("assumed.pressures"))
              : Bearing.always(least);
        });
  }

  /** Fitness for a soil or place, by the trait of the criterion's own name. */
  private static Rated suited(Criterion criterion, PlaceRule rule) {
    return Rated.of(
        criterion, STOCK, criterion.id(), SUITABILITY, (crop, site, goal) -> rule.of(site, goal));
  }

  @FunctionalInterface
  private interface PlaceRule {
    Bearing of(Site site, Goal goal);
  }

  @FunctionalInterface
  private interface SiteRule {
    Bearing of(Site site);
  }

  private static Bearing wetness(Site site) {
    Soil.Drainage drainage = site.soil().drainage();
    if (drainage == null)
      return Bearing.assumed(0.15, "site.soil.drainage", Sentence.of("assumed.drainage"));
    double relevance =
        switch (drainage) {
          case EXCESSIVELY_DRAINED, SOMEWHAT_EXCESSIVELY_DRAINED -> 0;
          case WELL_DRAINED -> 0.05;
          case MODERATELY_WELL_DRAINED -> 0.35;
          case SOMEWHAT_POORLY_DRAINED -> 0.8;
          case POORLY_DRAINED, VERY_POORLY_DRAINED -> 1;
        };
    return Bearing.told(relevance, Sentence.of("site.soil.drained", "drainage", drainage));
  }

  private static Bearing dryness(Site site) {
    Site.Irrigation irrigation = site.irrigation();
    boolean thirsty =
        site.soil().texture() != null && LIGHT.contains(site.soil().texture())
            || site.soil().depthCm() != null && site.soil().depthCm() < 50;
    boolean wet =
        site.soil().drainage() != null
            && site.soil().drainage().ordinal() >= Soil.Drainage.SOMEWHAT_POORLY_DRAINED.ordinal();
    double factor = thirsty ? 1.3 : wet ? 0.4 : 1;
    if (irrigation == null) {
      return Bearing.assumed(
          Math.min(1, 0.3 * factor), "site.irrigation", Sentence.of("assumed.irrigation"));
    }
    double relevance =
        switch (irrigation) {
          case NONE -> 0.75;
          case OCCASIONAL -> 0.4;
          case RELIABLE -> 0.05;
        };
    return Bearing.told(
        Math.min(1, relevance * factor),
        Sentence.of("site.water", "irrigation", irrigation, "thirsty", thirsty));
  }

  private static Bearing texture(Site site, Set<Soil.Texture> classes) {
    Soil.Texture texture = site.soil().texture();
    if (texture == null)
      return Bearing.assumed(0, "site.soil.texture", Sentence.of("assumed.texture"));
    return classes.contains(texture)
        ? Bearing.told(0.8, Sentence.of("site.soil.texture", "texture", texture))
        : Bearing.NONE;
  }

  private static Bearing lime(Site site) {
    Double ph = site.soil().ph();
    if (ph == null) return Bearing.assumed(0.05, "site.soil.ph", Sentence.of("assumed.ph"));
    // Iron becomes scarce from about pH 7.3 upward and badly so from 8 (common practice, no
    // source).
    return ph <= 7
        ? Bearing.NONE
        : Bearing.told(Math.min(1, (ph - 7) / 1), Sentence.of("site.soil.ph", "ph", ph));
  }

  private static Bearing salt(Site site) {
    Double salinity = site.soil().salinityDsPerM();
    if (salinity == null)
      return Bearing.assumed(0, "site.soil.salinityDsPerM", Sentence.of("assumed.salinity"));
    // Yield of most fruit trees begins to fall at 1.5 to 1.7 dS/m of the saturation extract (common
    // practice, no source).
    return salinity < 1
        ? Bearing.NONE
        : Bearing.told(
            Math.min(1, (salinity - 1) / 3 + 0.2),
            Sentence.of("site.soil.salinity", "salinity", salinity));
  }

  private static Bearing replant(Site site) {
    Boolean replant = site.soil().replant();
    if (replant == null)
      return Bearing.assumed(0.15, "site.soil.replant", Sentence.of("assumed.replant"));
    return replant ? Bearing.told(1, Sentence.of("site.soil.replant")) : Bearing.NONE;
  }

  private static Bearing wind(Site site, Goal goal) {
    double held =
        goal.support() == null
            ? 0.7
            : switch (goal.support()) {
              case NONE -> 1;
              case STAKE -> 0.6;
              case TRELLIS -> 0.25;
            };
    Site.Wind wind = site.wind();
    if (wind == null) return Bearing.assumed(0.5 * held, "site.wind", Sentence.of("assumed.wind"));
    double relevance =
        switch (wind) {
          case SHELTERED -> 0.25;
          case MODERATE -> 0.55;
          case EXPOSED -> 1;
        };
    return Bearing.told(relevance * held, Sentence.of("site.wind", "wind", wind));
  }
}
