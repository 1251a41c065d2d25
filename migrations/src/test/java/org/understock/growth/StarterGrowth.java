package org.understock.growth;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.understock.evidence.CompiledTraitBook;
import org.understock.evidence.Estimate;
import org.understock.evidence.Evidence;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.evidence.TraitRecord;
import org.understock.migrations.StarterEvidence;
import org.understock.plant.Crop;
import org.understock.site.Goal;
import org.understock.site.Site;

/** Growth on the starter evidence, compiled once for all tests. */
final class StarterGrowth {
  static final TraitBook BOOK = CompiledTraitBook.compile(1, StarterEvidence.read().evidence());
  private static final Map<Crop, Growth> GROWTH = new EnumMap<>(Growth.all(BOOK));

  private StarterGrowth() {}

  static Growth of(Crop crop) {
    return GROWTH.get(crop);
  }

  /** A middling or unknown variety on a stock at a site of which nothing is known. */
  static Expectations expect(Crop crop, String stock, String variety) {
    return expect(of(crop), stock, variety, Goal.UNKNOWN);
  }

  static Expectations expect(Growth growth, String stock, String variety, Goal goal) {
    return growth.expect(
        growth.stock(stock), growth.variety(variety), growth.site(Site.UNKNOWN), goal);
  }

  /** The book as if some traits had never been recorded for a subject. */
  static TraitBook without(Subject subject, Set<String> traits) {
    return new TraitBook() {
      @Override
      public long revision() {
        return BOOK.revision();
      }

      @Override
      public Evidence evidence() {
        return BOOK.evidence();
      }

      @Override
      public Optional<Estimate> estimate(Subject s, String trait) {
        return s.equals(subject) && traits.contains(trait)
            ? Optional.empty()
            : BOOK.estimate(s, trait);
      }

      @Override
      public List<TraitRecord> records(Subject s) {
        return BOOK.records(s);
      }

      @Override
      public Optional<TraitRecord> record(String id) {
        return BOOK.record(id);
      }
    };
  }
}
