package org.understock.service.catalogue;

import io.swagger.v3.oas.annotations.media.Schema;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.Context;
import org.understock.evidence.Source;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.evidence.TraitRecord;
import org.understock.trait.Value;

/** A record as answers give it: one published statement about a trait. */
@Schema(name = "Record", description = "One published statement about a trait, with its source.")
record RecordView(
    @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String id, @Schema(requiredMode = Schema.RequiredMode.REQUIRED) SubjectView subject,
    @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String trait, @Schema(requiredMode = Schema.RequiredMode.REQUIRED) ValueView value,
    @Schema(requiredMode = Schema.RequiredMode.REQUIRED, description = "How the author came to know it: the evidence tag.") String method,
    @Schema(requiredMode = Schema.RequiredMode.REQUIRED, description = "Id of the source.") String source,
    @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String citation,
    @Schema(requiredMode = Schema.RequiredMode.REQUIRED, description = "Where in the source: table, page, section.") String locator,
    @Nullable ContextView context, @Nullable String note) {

  /**
   * @param reach how many varieties a statement about a stock under varieties at large means; absent otherwise
   */
  @Schema(name = "RecordSubject")
  record SubjectView(
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) String crop, @Nullable String stock, @Nullable String variety,
      @Schema(allowableValues = {"named", "all", "most", "some"}) @Nullable String reach) {
    static SubjectView of(Subject subject) {
      String crop = subject.crop().id();
      if (subject instanceof Subject.StockIn s) return new SubjectView(crop, s.stock(), null, null);
      if (subject instanceof Subject.OfVariety v) return new SubjectView(crop, null, v.variety(), null);
      Subject.Pairing p = (Subject.Pairing) subject;
      return new SubjectView(crop, p.stock(), p.variety(), p.reach().name().toLowerCase(java.util.Locale.ROOT));
    }
  }

  /** A quantity, a range with one or two ends, a level or a name; quantities in the trait's unit. */
  @Schema(name = "RecordValue")
  record ValueView(@Nullable Double quantity, @Nullable Double low, @Nullable Double high, @Nullable String level, @Nullable String name) {
    static ValueView of(Value value) {
      if (value instanceof Value.Quantity q) return new ValueView(q.value(), null, null, null, null);
      if (value instanceof Value.Range r) return new ValueView(null, r.low(), r.high(), null, null);
      if (value instanceof Value.Level l) return new ValueView(null, null, null, l.level(), null);
      return new ValueView(null, null, null, null, ((Value.Name) value).name());
    }
  }

  @Schema(name = "RecordContext", description = "Where and when it was measured; all parts may be missing.")
  record ContextView(
      @Nullable String trial, @Nullable String site, @Nullable String scion, @Nullable Integer plantedYear, @Nullable Integer measuredYear,
      @Nullable Integer trees, @Nullable SpreadView spread, @Nullable String interstem, @Nullable Integer ageYears, @Nullable String relativeTo) {
    static @Nullable ContextView of(Context c) {
      if (c.equals(Context.NONE)) return null;
      SpreadView spread = c.spread() == null ? null : new SpreadView(c.spread().kind().name(), c.spread().value());
      return new ContextView(c.trial(), c.site(), c.scion(), c.plantedYear(), c.measuredYear(), c.trees(), spread, c.interstem(), c.ageYears(), c.relativeTo());
    }
  }

  @Schema(name = "RecordSpread")
  record SpreadView(
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED, allowableValues = {"SE", "SD", "HSD", "LSD"}) String kind,
      @Schema(requiredMode = Schema.RequiredMode.REQUIRED) double value) {}

  static RecordView of(TraitBook book, TraitRecord record) {
    Source source = book.evidence().sources().get(record.source());
    return new RecordView(record.id(), SubjectView.of(record.subject()), record.trait(), ValueView.of(record.value()), record.method().id(), record.source(),
        source.citation(), record.locator(), ContextView.of(record.context()), record.note().isEmpty() ? null : record.note());
  }
}
