package org.understock.service.place;

import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.understock.climate.NightRule;
import org.understock.climate.Springs;
import org.understock.climate.TemperatureSeries;
import org.understock.climate.Winter;
import org.understock.climate.Winters;
import org.understock.evidence.TraitBook;
import org.understock.plant.Crop;
import org.understock.plant.Names;
import org.understock.service.series.BloomBody;
import org.understock.service.series.SeasonBody;
import org.understock.service.series.SeriesOf;
import org.understock.service.series.TemperatureUnit;
import org.understock.site.Goal;
import org.understock.site.MeasuredWinters;
import org.understock.site.Site;
import org.understock.site.Soil;
import org.understock.site.Word;
import org.understock.trait.Refusal;
import org.understock.trait.Trait;

/** Turns what requests tell of the place and the goal into the engine's values. */
public final class Places {
  private Places() {}

  /**
   * @throws Refusal.Unknown for a pressure that the evidence knows no resistance to
   */
  public static Site site(@Nullable SiteRequest site, TraitBook book) {
    return site(site, measured(site), book);
  }

  /**
   * @param measured the site's temperatures, from {@link #measured}
   * @throws Refusal.Unknown for a pressure that the evidence knows no resistance to
   */
  public static Site site(@Nullable SiteRequest site, @Nullable Winters measured, TraitBook book) {
    if (site == null) return Site.UNKNOWN;
    return new Site(
        site.latitude(),
        site.coldestNightC(),
        site.chillHours(),
        site.chillPortions(),
        site.frostFreeDays(),
        soil(site.soil()),
        word(Site.Irrigation.class, "site.irrigation", site.irrigation()),
        word(Site.Wind.class, "site.wind", site.wind()),
        pressures(site.pressures(), book),
        measured == null ? null : winters(measured));
  }

  /**
   * The winters of the site's temperatures; null when none were told. A series without a complete
   * winter tells nothing of winters and, where no bloom was told, nothing of springs: then it is
   * refused, so that nobody believes that it counted.
   */
  public static @Nullable Winters measured(@Nullable SiteRequest site) {
    SiteRequest.TemperaturesRequest told = site == null ? null : site.temperatures();
    if (site == null || told == null) return null;
    if (site.latitude() == null) {
      throw new Refusal.Conflict(
          "site.latitude",
          "site.latitude is needed with site.temperatures: it tells how long the days are");
    }
    TemperatureUnit unit =
        Objects.requireNonNullElse(
            word(TemperatureUnit.class, "site.temperatures.units", told.units()),
            TemperatureUnit.CELSIUS);
    TemperatureSeries series =
        SeriesOf.body(
            told.daily(),
            told.hourly(),
            site.latitude(),
            NightRule.CONTINUOUS,
            unit,
            "site.temperatures");
    Winters winters =
        Winters.of(
            series, SeasonBody.of(told.season(), site.latitude(), "site.temperatures.season"));
    boolean bloomTold = site.bloom() != null && !site.bloom().isEmpty();
    if (!bloomTold && complete(winters).isEmpty()) {
      throw new Refusal.Conflict(
          "site.temperatures",
          "site.temperatures runs from "
              + series.start()
              + " to "
              + series.end()
              + " and has no complete winter; give a whole season, or tell site.chillHours or site.chillPortions and site.coldestNightC");
    }
    return winters;
  }

  /** What is known of the site's springs; bloom of varieties of other crops is kept and unused. */
  public static Springs springs(
      @Nullable SiteRequest site, @Nullable Winters measured, Crop crop, TraitBook book) {
    if (site == null) return Springs.UNKNOWN;
    return new Springs(
        measured,
        BloomBody.told(
            site.bloom(),
            "site.bloom",
            (field, name) ->
                book.plants()
                    .resolveVariety(crop, name)
                    .orElseGet(() -> BloomBody.variety(field, name, null, book.plants()))));
  }

  private static List<Winter> complete(Winters winters) {
    return winters.complete().stream().filter(w -> w.coldestNightC() != null).toList();
  }

  private static @Nullable MeasuredWinters winters(Winters measured) {
    List<Winter> complete = complete(measured);
    if (complete.isEmpty()) return null;
    return new MeasuredWinters(
        complete.stream().map(w -> w.chill().orElseThrow().chillHours()).toList(),
        complete.stream().map(w -> w.chill().orElseThrow().chillPortions()).toList(),
        complete.stream().map(w -> Objects.requireNonNull(w.coldestNightC())).toList());
  }

  private static Soil soil(SiteRequest.@Nullable SoilRequest soil) {
    if (soil == null) return Soil.UNKNOWN;
    return new Soil(
        word(Soil.Texture.class, "site.soil.texture", soil.texture()),
        word(Soil.Drainage.class, "site.soil.drainage", soil.drainage()),
        soil.depthCm(),
        soil.ph(),
        soil.salinityDsPerM(),
        word(Soil.Fertility.class, "site.soil.fertility", soil.fertility()),
        soil.replant());
  }

  /**
   * A pressure is a trait that plants resist more or less; any other word would silently change
   * nothing.
   */
  private static List<String> pressures(@Nullable List<String> given, TraitBook book) {
    if (given == null) return List.of();
    List<String> known =
        book.traits().all().stream()
            .filter(t -> t.levels().contains("resistant"))
            .map(Trait::id)
            .toList();
    for (int k = 0; k < given.size(); k++) {
      if (!known.contains(given.get(k)))
        throw new Refusal.Unknown(
            "site.pressures[" + k + "]", given.get(k), Names.closest(given.get(k), known, 3));
    }
    return given;
  }

  /** What the grower wants; unknown where nothing is told. */
  public static Goal goal(@Nullable GoalRequest goal) {
    if (goal == null) return Goal.UNKNOWN;
    GoalRequest.@Nullable SpaceRequest space = goal.spaceM();
    return new Goal(
        word(Goal.Purpose.class, "goal.purpose", goal.purpose()),
        goal.maxHeightM(),
        space == null ? null : space.width(),
        space == null ? null : space.length(),
        goal.firstCropWithinYears(),
        goal.keepForYears(),
        word(Goal.Care.class, "goal.care", goal.care()),
        word(Goal.Support.class, "goal.support", goal.support()),
        goal.priorities() == null ? Map.of() : goal.priorities());
  }

  /** A word of a vocabulary, or null where none is given. */
  public static <W extends Enum<W> & Word> @Nullable W word(
      Class<W> vocabulary, String field, @Nullable String given) {
    return given == null ? null : Word.of(vocabulary, field, given);
  }
}
