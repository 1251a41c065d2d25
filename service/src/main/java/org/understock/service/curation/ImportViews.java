package org.understock.service.curation;

import io.swagger.v3.oas.annotations.media.Schema;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.service.problem.ProblemError;

/** What is told of imports. */
final class ImportViews {
  private static final String ROWS = "Rows below the header, or lines of NDJSON.";
  private static final String DUPLICATES =
      "Statements and entries that were filed before, whatever became of them.";
  private static final String PROBLEMS =
      "What is wrong with the refused rows: the first 1 000 things.";

  private ImportViews() {}

  /** One thing wrong with a row. */
  @Schema(name = "ImportProblem")
  record ImportProblem(
      @Schema(
              requiredMode = Schema.RequiredMode.REQUIRED,
              description = "Line on which the row begins; the header is line 1.")
          long line,
      @Schema(description = "The column at fault; absent when it is the row as a whole.")
          @Nullable String column,
      @Schema(description = "For NDJSON: JSON Pointer into the line's object.")
          @Nullable String pointer,
      @Schema(
              requiredMode = Schema.RequiredMode.REQUIRED,
              description = "What is wrong, what was given, what would do, the nearest known ids.")
          String text) {}

  /** What came of an import. */
  @Schema(name = "ImportOutcome", description = "What came of an import.")
  record ImportOutcome(
      @Schema(
              requiredMode = Schema.RequiredMode.REQUIRED,
              description = "Id of the import; a review can accept by it all that came with it.")
          String id,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String kind,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String mode,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED, description = ROWS) long rows,
      @Schema(
              requiredMode = Schema.RequiredMode.REQUIRED,
              description = "Always 0: what is imported waits for a review.")
          long accepted,
      @Schema(
              requiredMode = Schema.RequiredMode.REQUIRED,
              description = "Records and entries that were filed; a row may make several records.")
          long proposed,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED, description = DUPLICATES)
          long duplicates,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED, description = "Rows that were refused.")
          long refused,
      @Schema(
              requiredMode = Schema.RequiredMode.REQUIRED,
              description = "How many things are wrong.")
          long problemCount,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED, description = PROBLEMS)
          List<ImportProblem> problems) {}

  /** A refused import, as a problem (RFC 9457) with what a finished one tells besides. */
  @Schema(
      name = "ImportRefusal",
      description = "A problem that also tells what came of the import: nothing.")
  record ImportRefusal(
      String type,
      String title,
      int status,
      String detail,
      String instance,
      @Nullable List<ProblemError> errors,
      String id,
      String kind,
      String mode,
      long rows,
      long accepted,
      long proposed,
      long duplicates,
      long refused,
      long problemCount,
      List<ImportProblem> problems) {}

  /** An import as the list shows it. */
  @Schema(name = "Import", description = "A file that was sent to be imported, and how far it is.")
  record ImportView(
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String id,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String kind,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String format,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String mode,
      @Schema(
              requiredMode = Schema.RequiredMode.REQUIRED,
              allowableValues = {"running", "finished", "refused", "failed", "interrupted"},
              description =
                  "`refused` for its rows, `failed` for a fault of the service; `interrupted` when nothing was heard of it for two minutes."
                      + " Of the last three nothing was kept:"
                      + " send the file again.")
          String status,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED, description = "Length of the file.")
          long bytes,
      @Schema(
              requiredMode = Schema.RequiredMode.REQUIRED,
              description = "SHA-256 of the file, hexadecimal.")
          String digest,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED, description = "Rows read so far.")
          long rows,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) long proposed,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED, description = DUPLICATES)
          long duplicates,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) long refused,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED, description = "Who sent it.")
          String actor,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) Instant startedAt,
      @Nullable Instant finishedAt) {}
}
