package org.understock.service.curation;

import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.Parameter;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.tags.Tag;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.constraints.Max;
import jakarta.validation.constraints.Min;
import jakarta.validation.constraints.Size;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.http.CacheControl;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import org.understock.service.platform.Page;
import org.understock.service.store.RevisionChain;

/** Who did what, and whether history is what it was. */
@RestController
@RequestMapping(path = "/v1/curation", produces = MediaType.APPLICATION_JSON_VALUE)
@Tag(name = "Curation")
class AuditController {
  private final AuditTrail audit;
  private final Lists lists;
  private final RevisionChain chain;

  AuditController(AuditTrail audit, Lists lists, RevisionChain chain) {
    this.audit = audit;
    this.lists = lists;
    this.chain = chain;
  }

  /** One line of the audit. */
  @Schema(name = "AuditLine")
  record LineView(
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) long id,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) Instant at,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED, description = "Subject of the token.")
          String actor,
      @Schema(
              requiredMode = Schema.RequiredMode.REQUIRED,
              description =
                  "propose, amend, accept, reject, withdraw, supersede, revise, import or load.")
          String action,
      @Schema(
              requiredMode = Schema.RequiredMode.REQUIRED,
              description = "Kind and id of what it was done to.")
          String subject,
      @Nullable Long revision,
      @Schema(description = "The statement after it, or the note given with it.")
          @Nullable String detail,
      @Schema(description = "Id of the request, as in X-Request-Id and in problems.")
          @Nullable String request) {}

  @GetMapping("/audit")
  @Operation(
      operationId = "listAudit",
      summary = "Read the audit",
      description =
          "Who did what, when, in answer to which request, in the order in which it was done. Nothing in it is ever changed or deleted: the database refuses.")
  ResponseEntity<Page<LineView>> list(
      @Parameter(description = "Only what this person did.")
          @RequestParam(required = false)
          @Size(max = 200)
          @Nullable String actor,
      @Parameter(description = "Only this kind of deed.")
          @RequestParam(required = false)
          @Size(max = 40)
          @Nullable String action,
      @Parameter(description = "Only what was done to this, such as `record r-0123456789abcdef`.")
          @RequestParam(required = false)
          @Size(max = 200)
          @Nullable String subject,
      @Parameter(description = "Only what came to count in this revision.")
          @RequestParam(required = false)
          @Min(1)
          @Nullable Long revision,
      @Parameter(description = "Only what was done at this time or later.")
          @RequestParam(required = false)
          @Nullable Instant since,
      @Parameter(description = Lists.CURSOR) @RequestParam(required = false) @Size(max = 1000)
          @Nullable String cursor,
      @Parameter(description = "Most items in the page.")
          @RequestParam(defaultValue = "50")
          @Min(1)
          @Max(200)
          int limit,
      HttpServletRequest request) {
    long after = lists.after(request, cursor).map(Long::parseLong).orElse(0L);
    List<AuditTrail.Line> found =
        audit.list(
            new AuditTrail.Filter(actor, action, subject, revision, since), after, limit + 1);
    return lists.page(
        request,
        found,
        limit,
        l -> String.valueOf(l.id()),
        l ->
            new LineView(
                l.id(),
                l.at(),
                l.actor(),
                l.action(),
                l.subject(),
                l.revision(),
                l.detail().isEmpty() ? null : l.detail(),
                l.request()));
  }

  /** Whether the chain of digests holds. */
  @Schema(name = "Verification")
  record VerificationView(
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) boolean verified,
      @Schema(
              requiredMode = Schema.RequiredMode.REQUIRED,
              description = "How many were computed again.")
          int revisions,
      @Schema(
              description =
                  "The first revision whose content does not give its digest; absent when all do.")
          @Nullable Long firstBroken,
      @Schema(
              requiredMode = Schema.RequiredMode.REQUIRED,
              description = "Digest of the latest revision, as stored.")
          String digest) {}

  @GetMapping("/revisions/verify")
  @Operation(
      operationId = "verifyRevisions",
      summary = "Verify the revisions",
      description =
          "Computes the digest of every revision again from what the database holds: each is a SHA-256 over the one before and everything that counts as of it.")
  ResponseEntity<VerificationView> verify() {
    RevisionChain.Verdict verdict = chain.verify();
    return ResponseEntity.ok()
        .cacheControl(CacheControl.noStore().cachePrivate())
        .body(
            new VerificationView(
                verdict.firstBroken() == null,
                verdict.revisions(),
                verdict.firstBroken(),
                verdict.digest()));
  }
}
