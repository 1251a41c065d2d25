package org.understock.service.catalogue;

import io.swagger.v3.oas.annotations.media.Schema;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.evidence.TraitRecord;
import org.understock.service.statement.EstimateView;

/** What is known of a stock in one crop, or of a variety. */
@Schema(name = "Knowledge")
record Knowledge(
    @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String crop,
    @Schema(
            requiredMode = Schema.RequiredMode.REQUIRED,
            description = "Whether it is advised to somebody who did not ask for it.")
        boolean advised,
    @Schema(
            requiredMode = Schema.RequiredMode.REQUIRED,
            description = "Number of records about it alone.")
        int records,
    @Schema(
            requiredMode = Schema.RequiredMode.REQUIRED,
            description = "Number of sources of those records.")
        int sources,
    @Schema(description = "Said when too little is known for it to be advised unasked.")
        @Nullable String littleKnown,
    @Schema(requiredMode = Schema.RequiredMode.REQUIRED) List<EstimateView> estimates) {

  static Knowledge of(TraitBook book, Subject subject, String name, boolean advised) {
    List<TraitRecord> records = book.records(subject);
    int sources = (int) records.stream().map(TraitRecord::source).distinct().count();
    List<EstimateView> estimates =
        book.traits().all().stream()
            .flatMap(
                trait ->
                    book
                        .estimate(subject, trait.id())
                        .map(e -> EstimateView.of(subject, trait.id(), e))
                        .stream())
            .toList();
    long traits = records.stream().map(TraitRecord::trait).distinct().count();
    String little =
        advised
            ? null
            : "Too little is on record of "
                + name
                + " in "
                + subject.crop().word()
                + " for it to be advised unasked: "
                + counted(records.size(), "record")
                + " on "
                + counted(traits, "trait")
                + " from "
                + counted(sources, "source")
                + ".";
    return new Knowledge(subject.crop().id(), advised, records.size(), sources, little, estimates);
  }

  private static String counted(long n, String what) {
    return n + " " + what + (n == 1 ? "" : "s");
  }
}
