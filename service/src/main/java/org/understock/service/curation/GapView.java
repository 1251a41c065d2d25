package org.understock.service.curation;

import static io.swagger.v3.oas.annotations.media.Schema.RequiredMode.REQUIRED;

import io.swagger.v3.oas.annotations.media.Schema;
import java.util.List;
import org.understock.impact.Gap;
import org.understock.service.statement.SubjectBody;

/** One thing that would be worth knowing better. */
@Schema(name = "Gap", description = "One thing that would be worth knowing better.")
record GapView(
    @Schema(requiredMode = REQUIRED) int rank,
    @Schema(requiredMode = REQUIRED) SubjectBody subject,
    @Schema(requiredMode = REQUIRED, description = "The subject for people.") String name,
    @Schema(requiredMode = REQUIRED, description = "Id of the trait.") String trait,
    @Schema(requiredMode = REQUIRED) String traitName,
    @Schema(
            requiredMode = REQUIRED,
            description =
                "Points of score by which the first places of the kept examples would on average be"
                    + " better if this were known, added up over the examples.")
        double points,
    @Schema(requiredMode = REQUIRED, description = "What is known now.") String known,
    @Schema(requiredMode = REQUIRED, description = "What kind of report would tell.")
        String lookFor,
    @Schema(
            requiredMode = REQUIRED,
            description = "The examples whose first place it may change, the most first.")
        List<ShareView> examples) {

  @Schema(name = "GapShare")
  record ShareView(
      @Schema(requiredMode = REQUIRED, description = "Id of the kept example.") String example,
      @Schema(requiredMode = REQUIRED) String title,
      @Schema(requiredMode = REQUIRED) double points,
      @Schema(
              requiredMode = REQUIRED,
              description = "Chance, 0 to 1, that knowing it puts another pairing first.")
          double wouldChange) {}

  static GapView of(int rank, Gap gap) {
    return new GapView(
        rank,
        SubjectBody.of(gap.subject()),
        gap.name(),
        gap.trait(),
        gap.traitName(),
        hundredth(gap.points()),
        gap.known(),
        gap.lookFor(),
        gap.examples().stream().map(GapView::share).toList());
  }

  private static ShareView share(Gap.Share share) {
    return new ShareView(
        share.example().id(),
        share.example().title(),
        hundredth(share.points()),
        hundredth(share.wouldChange()));
  }

  private static double hundredth(double x) {
    return Math.round(100 * x) / 100.0;
  }
}
