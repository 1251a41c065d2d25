package org.understock.service.catalogue;

import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.media.Schema.RequiredMode;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.Advisable;
import org.understock.evidence.Source;
import org.understock.evidence.TraitBook;
import org.understock.evidence.TraitRecord;
import org.understock.plant.Crop;
import org.understock.service.store.Revision;
import org.understock.service.store.RevisionChanges;
import org.understock.trait.Trait;

/** Crops, traits, sources and revisions as answers give them. */
final class BackgroundViews {
  private BackgroundViews() {}

  @Schema(name = "Crop")
  record CropItem(
      @Schema(requiredMode = RequiredMode.REQUIRED) String id,
      @Schema(requiredMode = RequiredMode.REQUIRED) String name,
      @Schema(requiredMode = RequiredMode.REQUIRED) int stocks,
      @Schema(requiredMode = RequiredMode.REQUIRED) int stocksAdvised,
      @Schema(requiredMode = RequiredMode.REQUIRED) int varieties,
      @Schema(requiredMode = RequiredMode.REQUIRED) int varietiesAdvised,
      @Schema(requiredMode = RequiredMode.REQUIRED) int records) {
    static CropItem of(TraitBook book, Crop crop) {
      Advisable advisable = Advisable.of(book, crop);
      List<String> stocks =
          book.plants().stocks().stream()
              .filter(s -> s.crops().contains(crop))
              .map(s -> s.id())
              .toList();
      List<String> varieties =
          book.plants().varieties().stream()
              .filter(v -> v.crop() == crop)
              .map(v -> v.id())
              .toList();
      return new CropItem(
          crop.id(),
          crop.label(),
          stocks.size(),
          (int) stocks.stream().filter(advisable::stock).count(),
          varieties.size(),
          (int) varieties.stream().filter(advisable::variety).count(),
          (int) book.evidence().records().stream().filter(r -> r.subject().crop() == crop).count());
    }
  }

  @Schema(name = "Trait")
  record TraitItem(
      @Schema(requiredMode = RequiredMode.REQUIRED) String id,
      @Schema(requiredMode = RequiredMode.REQUIRED) String name,
      @Schema(requiredMode = RequiredMode.REQUIRED) String definition,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "What it can be said of: stock, variety, pairing.")
          List<String> subjects,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description =
                  "contrast: trial means, pooled as ratios; quantity: positive, pooled as logs; interval: pooled on "
                      + "its own scale; levels: ordered words; names: words without order.",
              allowableValues = {"contrast", "quantity", "interval", "levels", "names"})
          String scale,
      @Nullable String unit,
      @Schema(description = "Lowest value that can be meant.") @Nullable Double min,
      @Schema(description = "Highest value that can be meant.") @Nullable Double max,
      @Schema(description = "Lowest first.") @Nullable List<String> levels) {
    static TraitItem of(Trait t) {
      boolean measured =
          switch (t.scale()) {
            case CONTRAST, QUANTITY, INTERVAL -> true;
            case LEVELS, NAMES -> false;
          };
      return new TraitItem(
          t.id(),
          t.name(),
          t.definition(),
          t.subjects().stream().sorted().map(s -> s.name().toLowerCase(Locale.ROOT)).toList(),
          t.scale().name().toLowerCase(Locale.ROOT),
          measured ? t.unit() : null,
          measured ? t.min() : null,
          measured ? t.max() : null,
          t.levels().isEmpty() ? null : t.levels());
    }
  }

  @Schema(name = "SourceItem")
  record SourceItem(
      @Schema(requiredMode = RequiredMode.REQUIRED) String id,
      @Schema(requiredMode = RequiredMode.REQUIRED) String kind,
      @Schema(requiredMode = RequiredMode.REQUIRED, description = "One line for people.")
          String citation) {
    static SourceItem of(Source s) {
      return new SourceItem(s.id(), s.kind(), s.citation());
    }
  }

  @Schema(name = "Source")
  record SourcePage(
      @Schema(requiredMode = RequiredMode.REQUIRED) String id,
      @Schema(requiredMode = RequiredMode.REQUIRED) String kind,
      @Schema(requiredMode = RequiredMode.REQUIRED) String title,
      @Schema(requiredMode = RequiredMode.REQUIRED) String authorsOrBody,
      @Schema(description = "As printed; absent when the source has no date.")
          @Nullable String year,
      @Nullable String publication,
      @Nullable String doiOrIsbn,
      @Nullable String url,
      @Nullable String note,
      @Schema(description = "Id of the source that this one restates; the two count as one voice.")
          @Nullable String origin,
      @Schema(requiredMode = RequiredMode.REQUIRED) String citation,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Ids of the records drawn from it.")
          List<String> records) {
    static SourcePage of(TraitBook book, Source s) {
      List<String> records =
          book.evidence().records().stream()
              .filter(r -> r.source().equals(s.id()))
              .map(TraitRecord::id)
              .sorted(Comparator.naturalOrder())
              .toList();
      return new SourcePage(
          s.id(),
          s.kind(),
          s.title(),
          s.authorsOrBody(),
          s.year(),
          orNull(s.publication()),
          s.doiOrIsbn(),
          s.url(),
          orNull(s.note()),
          s.origin(),
          s.citation(),
          records);
    }

    private static @Nullable String orNull(String text) {
      return text.isEmpty() ? null : text;
    }
  }

  /** Things of one kind that a revision changed. */
  @Schema(name = "RevisionChange")
  record ChangeView(
      @Schema(requiredMode = RequiredMode.REQUIRED) long count,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Ids in their order, at most " + RevisionChanges.LISTED + ".")
          List<String> ids) {
    static ChangeView of(RevisionChanges.Named named) {
      return new ChangeView(named.count(), named.ids());
    }
  }

  /** What a revision changed. */
  @Schema(
      name = "RevisionChanges",
      description = "What came to count, what counts no longer, and what is new in the catalogue.")
  record ChangesView(
      @Schema(requiredMode = RequiredMode.REQUIRED) ChangeView accepted,
      @Schema(requiredMode = RequiredMode.REQUIRED) ChangeView withdrawn,
      @Schema(requiredMode = RequiredMode.REQUIRED) ChangeView superseded,
      @Schema(requiredMode = RequiredMode.REQUIRED) ChangeView sources,
      @Schema(requiredMode = RequiredMode.REQUIRED) ChangeView stocks,
      @Schema(requiredMode = RequiredMode.REQUIRED) ChangeView varieties) {
    static ChangesView of(RevisionChanges.Changes c) {
      return new ChangesView(
          ChangeView.of(c.accepted()),
          ChangeView.of(c.withdrawn()),
          ChangeView.of(c.superseded()),
          ChangeView.of(c.sources()),
          ChangeView.of(c.stocks()),
          ChangeView.of(c.varieties()));
    }
  }

  @Schema(name = "Revision", description = "A numbered state of the accepted evidence.")
  record RevisionItem(
      @Schema(requiredMode = RequiredMode.REQUIRED) long revision,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "SHA-256 over the digest of the revision before and what changed.")
          String digest,
      @Schema(requiredMode = RequiredMode.REQUIRED) Instant createdAt,
      @Schema(requiredMode = RequiredMode.REQUIRED) String note,
      @Schema(
              requiredMode = RequiredMode.REQUIRED,
              description = "Number of records that count as of it.")
          long records,
      @Schema(description = "Told of one revision, not in lists.") @Nullable ChangesView changes) {
    static RevisionItem of(Revision r) {
      return new RevisionItem(r.number(), r.digest(), r.createdAt(), r.note(), r.records(), null);
    }

    static RevisionItem of(Revision r, RevisionChanges.Changes changes) {
      return new RevisionItem(
          r.number(), r.digest(), r.createdAt(), r.note(), r.records(), ChangesView.of(changes));
    }
  }
}
