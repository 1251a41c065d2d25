package org.understock.service.curation;

import static io.swagger.v3.oas.annotations.media.Schema.RequiredMode.REQUIRED;

import io.swagger.v3.oas.annotations.media.Schema;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.advice.Standing;
import org.understock.impact.ExampleAnswers;
import org.understock.impact.Impact;
import org.understock.service.statement.EstimateView;

/** What a change would do, as it is answered. */
@Schema(name = "Impact", description = "What a change would do.")
record ImpactView(
    @Schema(requiredMode = REQUIRED, description = "The revision that would be changed.")
        long revision,
    @Schema(
            requiredMode = REQUIRED,
            description =
                "Estimates that change beyond rounding: first those that the changed records speak of, then"
                    + " those that move most.")
        List<EstimateChangeView> estimates,
    @Schema(
            requiredMode = REQUIRED,
            description = "Every kept example; first those whose answer changes.")
        List<ExampleChangeView> advice) {

  @Schema(name = "EstimateChange")
  record EstimateChangeView(
      @Schema(requiredMode = REQUIRED, description = "Id of a stock or variety.") String subject,
      @Schema(requiredMode = REQUIRED) String crop,
      @Schema(requiredMode = REQUIRED) String trait,
      @Schema(
              requiredMode = REQUIRED,
              description = "Whether a changed record speaks of this very trait of this subject.")
          boolean direct,
      @Schema(description = "Absent where nothing was known.") @Nullable EstimateView before,
      @Schema(description = "Absent where nothing is known any more.")
          @Nullable EstimateView after) {}

  @Schema(name = "ExampleChange")
  record ExampleChangeView(
      @Schema(requiredMode = REQUIRED, description = "Id of the kept example.") String example,
      @Schema(requiredMode = REQUIRED) String title,
      @Schema(requiredMode = REQUIRED) String crop,
      @Schema(
              requiredMode = REQUIRED,
              description = "Whether places, scores, ranges or who is ruled out differ.")
          boolean changed,
      @Schema(requiredMode = REQUIRED) List<PlaceView> topBefore,
      @Schema(requiredMode = REQUIRED) List<PlaceView> topAfter,
      @Schema(
              requiredMode = REQUIRED,
              description = "Pairings among the first before or after whose rank differs.")
          List<MoveView> moved,
      @Schema(requiredMode = REQUIRED) List<PairingView> entered,
      @Schema(requiredMode = REQUIRED) List<PairingView> left,
      @Schema(
              requiredMode = REQUIRED,
              description = "The best of the pairings that would be ruled out newly, at most 20.")
          List<PairingView> newlyRuledOut,
      @Schema(requiredMode = REQUIRED) int newlyRuledOutCount,
      @Schema(
              requiredMode = REQUIRED,
              description =
                  "The best of the pairings that would be ruled out no longer, at most 20.")
          List<PairingView> noLongerRuledOut,
      @Schema(requiredMode = REQUIRED) int noLongerRuledOutCount,
      @Schema(description = "Why the example can't be answered now; absent when it can.")
          @Nullable String refusedBefore,
      @Schema(description = "Why the example could not be answered then; absent when it could.")
          @Nullable String refusedAfter) {}

  @Schema(name = "ExamplePlace")
  record PlaceView(
      @Schema(requiredMode = REQUIRED) int rank,
      @Schema(requiredMode = REQUIRED) NameView stock,
      @Schema(requiredMode = REQUIRED) NameView variety,
      @Schema(requiredMode = REQUIRED) double score,
      @Schema(requiredMode = REQUIRED, description = "In 80 of 100 draws the score lies here.")
          RangeView scoreRange) {}

  @Schema(name = "PlantName")
  record NameView(
      @Schema(requiredMode = REQUIRED) String id, @Schema(requiredMode = REQUIRED) String name) {}

  @Schema(name = "ExampleScoreRange")
  record RangeView(
      @Schema(requiredMode = REQUIRED) double low, @Schema(requiredMode = REQUIRED) double high) {}

  @Schema(name = "PairingIds")
  record PairingView(
      @Schema(requiredMode = REQUIRED) String stock,
      @Schema(requiredMode = REQUIRED) String variety) {}

  @Schema(name = "PairingMove")
  record MoveView(
      @Schema(requiredMode = REQUIRED) String stock,
      @Schema(requiredMode = REQUIRED) String variety,
      @Schema(description = "Rank before; absent where it was not listed.") @Nullable Integer from,
      @Schema(description = "Rank after; absent where it is not listed any more.")
          @Nullable Integer to) {}

  private static final int RULED_OUT_SHOWN = 20;

  static ImpactView of(long revision, Impact impact) {
    return new ImpactView(
        revision,
        impact.estimates().stream().map(ImpactView::estimate).toList(),
        impact.examples().stream().map(ImpactView::example).toList());
  }

  private static EstimateChangeView estimate(Impact.EstimateChange change) {
    return new EstimateChangeView(
        EstimateView.id(change.subject()),
        change.subject().crop().id(),
        change.trait(),
        change.direct(),
        change.before().map(e -> EstimateView.of(change.subject(), change.trait(), e)).orElse(null),
        change.after().map(e -> EstimateView.of(change.subject(), change.trait(), e)).orElse(null));
  }

  private static ExampleChangeView example(Impact.ExampleChange change) {
    return new ExampleChangeView(
        change.example().id(),
        change.example().title(),
        change.example().question().crop().id(),
        change.changed(),
        places(change.before()),
        places(change.after()),
        change.moved().stream()
            .map(m -> new MoveView(m.pairing().stock(), m.pairing().variety(), m.from(), m.to()))
            .toList(),
        pairings(change.entered()),
        pairings(change.left()),
        few(change.newlyRuledOut()),
        change.newlyRuledOut().size(),
        few(change.noLongerRuledOut()),
        change.noLongerRuledOut().size(),
        change.before().refusal().orElse(null),
        change.after().refusal().orElse(null));
  }

  private static List<PlaceView> places(ExampleAnswers.Answer answer) {
    return answer.standing().map(Standing::places).orElse(List.of()).stream()
        .map(ImpactView::place)
        .toList();
  }

  private static PlaceView place(Standing.Place place) {
    return new PlaceView(
        place.rank(),
        new NameView(place.stock().id(), place.stock().name()),
        new NameView(place.variety().id(), place.variety().name()),
        place.score(),
        new RangeView(place.low(), place.high()));
  }

  private static List<PairingView> few(List<Standing.Pairing> pairings) {
    return pairings(pairings.subList(0, Math.min(RULED_OUT_SHOWN, pairings.size())));
  }

  private static List<PairingView> pairings(List<Standing.Pairing> pairings) {
    return pairings.stream().map(p -> new PairingView(p.stock(), p.variety())).toList();
  }
}
