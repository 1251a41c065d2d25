package org.understock.service.advice;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.understock.advice.Candidates;
import org.understock.advice.Question;
import org.understock.advice.Units;
import org.understock.evidence.TraitBook;
import org.understock.plant.Crop;
import org.understock.plant.Names;
import org.understock.plant.Plants;
import org.understock.site.Goal;
import org.understock.site.Site;
import org.understock.site.Soil;
import org.understock.site.Word;
import org.understock.trait.Refusal;
import org.understock.trait.Trait;

/** Turns a checked request into the engine's question. */
final class Questions {
  private static final int USUAL_LIMIT = 10;

  private Questions() {}

  /**
   * @throws Refusal.Conflict when neither crop nor variety is named
   * @throws Refusal.Unknown for a pressure or a first variety that is not known
   */
  static Question of(AdviceRequest request, TraitBook book) {
    Candidates candidates = candidates(request.candidates());
    Crop crop = request.crop() != null ? Crop.of(request.crop()) : cropOf(candidates, book.plants());
    return new Question(crop, site(request.site(), book), goal(request.goal()), candidates, Objects.requireNonNullElse(request.limit(), USUAL_LIMIT),
        Objects.requireNonNullElse(word(Question.BestPer.class, "bestPer", request.bestPer()), Question.BestPer.PAIRING),
        Objects.requireNonNullElse(word(Units.class, "units", request.units()), Units.METRIC));
  }

  /** The crop of the first variety that the candidates name. */
  private static Crop cropOf(Candidates candidates, Plants plants) {
    String field = candidates.varieties().isEmpty() ? "candidates.pairings[0].variety" : "candidates.varieties[0]";
    Optional<String> first = Stream.concat(candidates.varieties().stream(),
        candidates.pairings().stream().map(Candidates.Named::variety)).findFirst();
    String name = first.orElseThrow(() -> new Refusal.Conflict("crop", "crop is not given, and no candidate variety tells it; give one of "
        + String.join(", ", Crop.ids())));
    Optional<Crop> exact = plants.variety(name).map(v -> v.crop());
    if (exact.isPresent()) return exact.get();
    List<Crop> crops = Arrays.stream(Crop.values()).filter(crop -> plants.resolveVariety(crop, name).isPresent()).toList();
    if (crops.size() > 1) {
      throw new Refusal.Conflict("crop", "crop is not given, and '" + name + "' is a variety of "
          + String.join(", ", crops.stream().map(Crop::id).toList()));
    }
    if (crops.isEmpty()) throw new Refusal.Unknown(field, name, plants.nearestVarieties(name));
    return crops.get(0);
  }

  private static Site site(AdviceRequest.@Nullable SiteRequest site, TraitBook book) {
    if (site == null) return Site.UNKNOWN;
    return new Site(site.latitude(), site.coldestNightC(), site.chillHours(), site.chillPortions(), site.frostFreeDays(), soil(site.soil()),
        word(Site.Irrigation.class, "site.irrigation", site.irrigation()),
        word(Site.Wind.class, "site.wind", site.wind()), pressures(site.pressures(), book));
  }

  private static Soil soil(AdviceRequest.@Nullable SoilRequest soil) {
    if (soil == null) return Soil.UNKNOWN;
    return new Soil(word(Soil.Texture.class, "site.soil.texture", soil.texture()), word(Soil.Drainage.class, "site.soil.drainage", soil.drainage()),
        soil.depthCm(), soil.ph(), soil.salinityDsPerM(), word(Soil.Fertility.class, "site.soil.fertility", soil.fertility()), soil.replant());
  }

  /** A pressure is a trait that plants resist more or less; any other word would silently change nothing. */
  private static List<String> pressures(@Nullable List<String> given, TraitBook book) {
    if (given == null) return List.of();
    List<String> known = book.traits().all().stream().filter(t -> t.levels().contains("resistant")).map(Trait::id).toList();
    for (int k = 0; k < given.size(); k++) {
      if (!known.contains(given.get(k))) throw new Refusal.Unknown("site.pressures[" + k + "]", given.get(k), Names.closest(given.get(k), known, 3));
    }
    return given;
  }

  private static Goal goal(AdviceRequest.@Nullable GoalRequest goal) {
    if (goal == null) return Goal.UNKNOWN;
    AdviceRequest.SpaceRequest space = goal.spaceM();
    return new Goal(word(Goal.Purpose.class, "goal.purpose", goal.purpose()), goal.maxHeightM(), space == null ? null : space.width(),
        space == null ? null : space.length(), goal.firstCropWithinYears(), goal.keepForYears(), word(Goal.Care.class, "goal.care", goal.care()),
        word(Goal.Support.class, "goal.support", goal.support()), goal.priorities() == null ? Map.of() : goal.priorities());
  }

  private static Candidates candidates(AdviceRequest.@Nullable CandidatesRequest candidates) {
    if (candidates == null) return Candidates.ALL;
    List<Candidates.Named> pairings = candidates.pairings() == null ? List.of()
        : candidates.pairings().stream().map(p -> new Candidates.Named(p.stock(), p.variety(), p.sku())).toList();
    return new Candidates(Objects.requireNonNullElse(candidates.stocks(), List.of()),
        Objects.requireNonNullElse(candidates.varieties(), List.of()), pairings);
  }

  private static <W extends Enum<W> & Word> @Nullable W word(Class<W> vocabulary, String field, @Nullable String given) {
    return given == null ? null : Word.of(vocabulary, field, given);
  }
}
