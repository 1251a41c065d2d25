package org.understock.service.advice;

import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.understock.advice.Candidates;
import org.understock.advice.Question;
import org.understock.advice.Units;
import org.understock.climate.Winters;
import org.understock.evidence.TraitBook;
import org.understock.plant.Crop;
import org.understock.plant.Plants;
import org.understock.service.place.Places;
import org.understock.trait.Refusal;
import org.understock.wording.Language;

/** Turns a checked request into the engine's question. */
final class Questions {
  private static final int USUAL_LIMIT = 10;

  private Questions() {}

  /**
   * @throws Refusal.Conflict when neither crop nor variety is named
   * @throws Refusal.Unknown for a pressure or a first variety that is not known
   */
  static Question of(AdviceRequest request, TraitBook book, Language language) {
    Candidates candidates = candidates(request.candidates());
    Crop crop =
        request.crop() != null ? Crop.of(request.crop()) : cropOf(candidates, book.plants());
    Winters measured = Places.measured(request.site());
    return new Question(
        crop,
        Places.site(request.site(), measured, book),
        Places.goal(request.goal()),
        candidates,
        Objects.requireNonNullElse(request.limit(), USUAL_LIMIT),
        Objects.requireNonNullElse(
            Places.word(Question.BestPer.class, "bestPer", request.bestPer()),
            Question.BestPer.PAIRING),
        Objects.requireNonNullElse(
            Places.word(Units.class, "units", request.units()), Units.METRIC),
        Places.springs(request.site(), measured, crop, book),
        language);
  }

  /** The crop of the first variety that the candidates name. */
  private static Crop cropOf(Candidates candidates, Plants plants) {
    String field =
        candidates.varieties().isEmpty()
            ? "candidates.pairings[0].variety"
            : "candidates.varieties[0]";
    Optional<String> first =
        Stream.concat(
                candidates.varieties().stream(),
                candidates.pairings().stream().map(Candidates.Named::variety))
            .findFirst();
    String name =
        first.orElseThrow(
            () ->
                new Refusal.Conflict(
                    "crop",
                    "crop is not given, and no candidate variety tells it; give one of "
                        + String.join(", ", Crop.ids())));
    Optional<Crop> exact = plants.variety(name).map(v -> v.crop());
    if (exact.isPresent()) return exact.get();
    List<Crop> crops =
        Arrays.stream(Crop.values())
            .filter(crop -> plants.resolveVariety(crop, name).isPresent())
            .toList();
    if (crops.size() > 1) {
      throw new Refusal.Conflict(
          "crop",
          "crop is not given, and '"
              + name
              + "' is a variety of "
              + String.join(", ", crops.stream().map(Crop::id).toList()));
    }
    if (crops.isEmpty()) throw new Refusal.Unknown(field, name, plants.nearestVarieties(name));
    return crops.get(0);
  }

  private static Candidates candidates(AdviceRequest.@Nullable CandidatesRequest candidates) {
    if (candidates == null) return Candidates.ALL;
    List<Candidates.Named> pairings =
        candidates.pairings() == null
            ? List.of()
            : candidates.pairings().stream()
                .map(p -> new Candidates.Named(p.stock(), p.variety(), p.sku()))
                .toList();
    return new Candidates(
        Objects.requireNonNullElse(candidates.stocks(), List.of()),
        Objects.requireNonNullElse(candidates.varieties(), List.of()),
        pairings);
  }
}
