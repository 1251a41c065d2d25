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
    all.add(
        Rated.of(
            Criteria.ANCHORAGE,
            STOCK,
            "anchorage",
            SUITABILITY,
            "anchorage",
            (crop, site, goal) -> wind(site, goal)));
    all.add(
        Rated.of(
            Criterion.both(
                "wet-soil",
                "Wet soil",
                "How the roots bear ground that stays wet, where the site's drainage is poor."),
            STOCK,
            "wet-soil",
            SUITABILITY,
            "wet soil",
            (crop, site, goal) -> wetness(site)));
    all.add(
        Rated.of(
            Criterion.both(
                "drought",
                "Drought",
                "How the tree bears dry spells, where there is little irrigation or water-holding soil."),
            STOCK,
            "drought",
            SUITABILITY,
            "drought",
            (crop, site, goal) -> dryness(site)));
    all.add(
        Rated.of(
            Criterion.both("heavy-soil", "Heavy soil", "How the stock does on clay."),
            STOCK,
            "heavy-soil",
            SUITABILITY,
            "heavy soil",
            (crop, site, goal) -> texture(site, HEAVY)));
    all.add(
        Rated.of(
            Criterion.both("light-soil", "Light soil", "How the stock does on sand."),
            STOCK,
            "light-soil",
            SUITABILITY,
            "light soil",
            (crop, site, goal) -> texture(site, LIGHT)));
    all.add(
        Rated.of(
            Criterion.both(
                "lime-high-ph",
                "Lime and high pH",
                "How the stock bears calcareous soil, where leaves yellow for want of iron."),
            STOCK,
            "lime-high-ph",
            SUITABILITY,
            "lime and high pH",
            (crop, site, goal) -> lime(site)));
    all.add(
        Rated.of(
            Criterion.both("salinity", "Salinity", "How the stock bears salt in the soil."),
            STOCK,
            "salinity",
            SUITABILITY,
            "salty soil",
            (crop, site, goal) -> salt(site)));
    all.add(
        new Rated(
            Criterion.preference(
                "upkeep",
                "Suckers and upkeep",
                "Root suckers and burr knots that must be cut away or that let borers in."),
            STOCK,
            List.of(new Rated.Part("suckering", 0.75), new Rated.Part("burr-knots", 0.25)),
            FEWNESS,
            "suckers and burr knots",
            (crop, site, goal) -> Bearing.told(1, "")));
    all.add(pest("fire-blight", "Fire blight", "fire blight", 0.35, null));
    all.add(pest("crown-rot-phytophthora", "Crown rot", "crown rot", 0.3, RatedCriteria::wetness));
    all.add(
        pest(
            "replant-disease", "Replant disease", "replant disease", 0.15, RatedCriteria::replant));
    all.add(pest("woolly-apple-aphid", "Woolly apple aphid", "woolly apple aphid", 0.15, null));
    all.add(pest("root-knot-nematode", "Root-knot nematode", "root-knot nematodes", 0.15, null));
    all.add(pest("ring-nematode", "Ring nematode", "ring nematodes", 0.15, null));
    all.add(pest("lesion-nematode", "Lesion nematode", "lesion nematodes", 0.1, null));
    all.add(pest("bacterial-canker", "Bacterial canker", "bacterial canker", 0.2, null));
    all.add(pest("oak-root-fungus", "Oak root fungus", "oak root fungus", 0.05, null));
    all.add(pest("verticillium", "Verticillium wilt", "verticillium wilt", 0.1, null));
    all.add(pest("crown-gall", "Crown gall", "crown gall", 0.1, null));
    all.add(pest("pear-decline", "Pear decline", "pear decline", 0.25, null));
    all.add(pest("woolly-pear-aphid", "Woolly pear aphid", "woolly pear aphid", 0.1, null));
    all.add(pest("latent-virus", "Latent viruses", "latent viruses", 0.2, null));
    return List.copyOf(all);
  }

  /**
   * A pest or disease of the stock: full weight when the site lists it, a little when nothing was
   * said of pressures at all, and next to none when pressures were listed and this one is not among
   * them.
   */
  private static Rated pest(
      String trait, String label, String topic, double untold, @Nullable SiteRule alsoBy) {
    Criterion criterion =
        Criterion.both(
            trait,
            label,
            "Resistance of the stock to " + topic + ", where it is present or to be feared.");
    return Rated.of(
        criterion,
        STOCK,
        trait,
        RESISTANCE,
        topic,
        (crop, site, goal) -> {
          if (site.pressures().contains(trait))
            return Bearing.told(
                1, capital(topic) + (topic.endsWith("s") ? " are present" : " is present"));
          Bearing other = alsoBy == null ? Bearing.NONE : alsoBy.of(site);
          boolean silent = site.pressures().isEmpty();
          double least = silent ? untold : untold / 4;
          if (other.relevance() > least && other.assumption() == null) return other;
          return silent
              ? Bearing.assumed(
                  Math.max(least, other.assumption() == null ? 0 : least),
                  "site.pressures",
                  "No pests or diseases were named; the usual ones of the crop count a little.")
              : Bearing.told(least, "");
        });
  }

  @FunctionalInterface
  private interface SiteRule {
    Bearing of(Site site);
  }

  private static Bearing wetness(Site site) {
    Soil.Drainage drainage = site.soil().drainage();
    if (drainage == null)
      return Bearing.assumed(
          0.15, "site.soil.drainage", "Drainage was not told; taken as good, with some doubt.");
    double relevance =
        switch (drainage) {
          case EXCESSIVELY_DRAINED, SOMEWHAT_EXCESSIVELY_DRAINED -> 0;
          case WELL_DRAINED -> 0.05;
          case MODERATELY_WELL_DRAINED -> 0.35;
          case SOMEWHAT_POORLY_DRAINED -> 0.8;
          case POORLY_DRAINED, VERY_POORLY_DRAINED -> 1;
        };
    return Bearing.told(relevance, "The soil is " + drainage.id().replace('-', ' '));
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
          Math.min(1, 0.3 * factor),
          "site.irrigation",
          "Irrigation was not told; taken as water now and then.");
    }
    double relevance =
        switch (irrigation) {
          case NONE -> 0.75;
          case OCCASIONAL -> 0.4;
          case RELIABLE -> 0.05;
        };
    String because =
        switch (irrigation) {
          case NONE -> "There is no irrigation";
          case OCCASIONAL -> "There is water only now and then";
          case RELIABLE -> "Irrigation is reliable";
        };
    return Bearing.told(
        Math.min(1, relevance * factor),
        because + (thirsty ? " and the soil holds little water" : ""));
  }

  private static Bearing texture(Site site, Set<Soil.Texture> classes) {
    Soil.Texture texture = site.soil().texture();
    if (texture == null)
      return Bearing.assumed(
          0, "site.soil.texture", "Soil texture was not told; taken as a middling loam.");
    return classes.contains(texture)
        ? Bearing.told(0.8, "The soil is a " + texture.id().replace('-', ' '))
        : Bearing.NONE;
  }

  private static Bearing lime(Site site) {
    Double ph = site.soil().ph();
    if (ph == null)
      return Bearing.assumed(
          0.05, "site.soil.ph", "Soil pH was not told; taken as slightly acid to neutral.");
    // Iron becomes scarce from about pH 7.3 upward and badly so from 8 (common practice, no
    // source).
    return ph <= 7
        ? Bearing.NONE
        : Bearing.told(Math.min(1, (ph - 7) / 1), "Soil pH is " + Units.decimal(ph));
  }

  private static Bearing salt(Site site) {
    Double salinity = site.soil().salinityDsPerM();
    if (salinity == null)
      return Bearing.assumed(
          0, "site.soil.salinityDsPerM", "Soil salinity was not told; taken as harmless.");
    // Yield of most fruit trees begins to fall at 1.5 to 1.7 dS/m of the saturation extract (common
    // practice, no source).
    return salinity < 1
        ? Bearing.NONE
        : Bearing.told(
            Math.min(1, (salinity - 1) / 3 + 0.2),
            "Soil salinity is " + Units.decimal(salinity) + " dS/m");
  }

  private static Bearing replant(Site site) {
    Boolean replant = site.soil().replant();
    if (replant == null)
      return Bearing.assumed(
          0.15,
          "site.soil.replant",
          "Not told whether such trees stood here before; taken as fresh ground, with some doubt.");
    return replant ? Bearing.told(1, "The ground is replanted") : Bearing.NONE;
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
    if (wind == null)
      return Bearing.assumed(0.5 * held, "site.wind", "Wind was not told; taken as moderate.");
    double relevance =
        switch (wind) {
          case SHELTERED -> 0.25;
          case MODERATE -> 0.55;
          case EXPOSED -> 1;
        };
    String because =
        switch (wind) {
          case SHELTERED -> "The site is sheltered";
          case MODERATE -> "Wind is moderate";
          case EXPOSED -> "The site is exposed to wind";
        };
    return Bearing.told(relevance * held, because);
  }

  static String capital(String text) {
    return Character.toUpperCase(text.charAt(0)) + text.substring(1);
  }
}
