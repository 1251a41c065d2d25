package org.understock.service.curation;

import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.Parameter;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.tags.Tag;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import jakarta.validation.constraints.Max;
import jakarta.validation.constraints.Min;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.springframework.http.CacheControl;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import org.understock.impact.Gap;
import org.understock.plant.Crop;
import org.understock.service.limits.Allowance;
import org.understock.service.limits.Turns;
import org.understock.service.platform.OneOf;
import org.understock.service.platform.Page;
import org.understock.service.problem.ProblemException;
import org.understock.service.problem.ProblemType;
import org.understock.service.statement.RecordBody;
import org.understock.service.store.Snapshots;

/** What evidence would do before it is accepted, and which evidence to look for. */
@RestController
@RequestMapping(path = "/v1/curation", produces = MediaType.APPLICATION_JSON_VALUE)
@Tag(name = "Curation")
class ForesightController {
  /** What a look ahead counts beyond one: it asks two dozen questions of the whole catalogue. */
  private static final int UNITS = 50;

  private final Foresight foresight;
  private final Lists lists;
  private final Snapshots snapshots;
  private final Turns turns;

  ForesightController(Foresight foresight, Lists lists, Snapshots snapshots, Turns turns) {
    this.turns = turns;
    this.foresight = foresight;
    this.lists = lists;
    this.snapshots = snapshots;
  }

  /** What is thought of; each list may be left out, but not all three. */
  @Schema(
      name = "ImpactRequest",
      description =
          "Statements that are not filed, proposals, and accepted records that would be withdrawn. At least one of all.")
  record ImpactBody(
      @Size(max = 2000)
          @Schema(description = "Statements as they would be proposed; none is filed.")
          @Nullable List<@NotNull @Valid RecordBody> records,
      @Size(max = 50_000) @Schema(description = "Ids of proposals, as if they were accepted.")
          @Nullable List<@NotNull @Size(max = 40) String> accept,
      @Size(max = 50_000)
          @Schema(description = "Ids of accepted records, as if they were withdrawn.")
          @Nullable List<@NotNull @Size(max = 40) String> withdraw,
      @Size(max = 100)
          @Schema(description = "Ids of the kept examples to answer; all when it is left out.")
          @Nullable List<@NotNull @Size(max = 100) String> examples) {}

  @PostMapping(path = "/impact", consumes = MediaType.APPLICATION_JSON_VALUE)
  @Operation(
      operationId = "foreseeImpact",
      summary = "See what evidence would do before it is accepted",
      description =
          "Pools the evidence with and without the change and answers the kept examples (two dozen requests of an invented scenario, over"
              + " all crops) from both. Tells every estimate that changes beyond rounding, and of every example the first places before and after."
              + " Nothing is written. Verdicts on pairings are no estimates: what they change is seen in the examples alone.")
  ResponseEntity<ImpactView> impact(
      @Valid @RequestBody ImpactBody body, HttpServletRequest request) {
    List<RecordBody> records = Objects.requireNonNullElse(body.records(), List.of());
    List<String> accept = Objects.requireNonNullElse(body.accept(), List.of());
    List<String> withdraw = Objects.requireNonNullElse(body.withdraw(), List.of());
    if (records.isEmpty() && accept.isEmpty() && withdraw.isEmpty()) {
      throw ProblemException.of(
          ProblemType.INVALID_REQUEST,
          "Nothing is changed: give records, or ids to accept or withdraw.",
          List.of());
    }
    Foresight.Foreseen foreseen =
        turns.takeLong(
            () ->
                foresight.impact(
                    records,
                    accept,
                    withdraw,
                    Objects.requireNonNullElse(body.examples(), List.of())));
    Allowance.of(request).charge(UNITS);
    return ResponseEntity.ok()
        .cacheControl(CacheControl.noStore().cachePrivate())
        .body(ImpactView.of(foreseen.revision(), foreseen.impact()));
  }

  @GetMapping("/gaps")
  @Operation(
      operationId = "listGaps",
      summary = "Which evidence is worth most",
      description =
          "Ranks what could be known better by how much that would better the advice over the kept examples: the expected value of partial"
              + " perfect information, in points of score, from the draws that score them. Only what is not known of the plant itself counts, not how"
              + " places differ. A trait of which a crop has no record at all takes no part in its answers and is not listed. The first call after a new"
              + " revision computes it.")
  ResponseEntity<Page<GapView>> gaps(
      @Parameter(description = "Only gaps of this crop.")
          @RequestParam(required = false)
          @OneOf(Crop.class)
          @Nullable String crop,
      @Parameter(description = Lists.CURSOR) @RequestParam(required = false) @Size(max = 1000)
          @Nullable String cursor,
      @Parameter(description = "Most items in the page.")
          @RequestParam(defaultValue = "50")
          @Min(1)
          @Max(200)
          int limit,
      HttpServletRequest request) {
    Place place =
        lists
            .after(request, cursor)
            .map(Place::of)
            .orElseGet(() -> new Place(snapshots.latest().revision().number(), 0));
    List<Gap> all =
        turns
            .takeLong(() -> foresight.gaps(place.revision()))
            .orElseThrow(
                () -> new IllegalStateException("revision " + place.revision() + " is gone"))
            .stream()
            .filter(gap -> crop == null || gap.subject().crop().id().equals(crop))
            .toList();
    List<Ranked> found = new ArrayList<>();
    for (int k = place.rank(); k < Math.min(all.size(), place.rank() + limit + 1); k++)
      found.add(new Ranked(k + 1, all.get(k)));
    return lists.page(
        request,
        found,
        limit,
        ranked -> place.revision() + " " + ranked.rank(),
        ranked -> GapView.of(ranked.rank(), ranked.gap()));
  }

  private record Ranked(int rank, Gap gap) {}

  /** Where a walk stands: it stays on the revision that it began with. */
  private record Place(long revision, int rank) {
    static Place of(String key) {
      int space = key.indexOf(' ');
      return new Place(
          Long.parseLong(key.substring(0, space)), Integer.parseInt(key.substring(space + 1)));
    }
  }
}
