package org.understock.bench;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.understock.evidence.Context;
import org.understock.evidence.Evidence;
import org.understock.evidence.Source;
import org.understock.evidence.TraitRecord;
import org.understock.migrations.StarterEvidence;

/**
 * Evidence of a given size about the plants of the catalogue: the starter evidence told again and
 * again, each time by other sources of other trials. Invented, and only for measuring.
 */
final class Multiplied {
  private Multiplied() {}

  static Evidence to(int records) {
    Evidence once = StarterEvidence.read().evidence();
    if (records <= once.records().size())
      return new Evidence(
          once.traits(), once.plants(), once.sources(), once.records().subList(0, records));
    Map<String, Source> sources = new LinkedHashMap<>(once.sources());
    List<TraitRecord> all = new ArrayList<>(once.records());
    for (int copy = 1; all.size() < records; copy++) {
      for (TraitRecord record : once.records()) {
        if (all.size() == records) break;
        Source source = Objects.requireNonNull(once.sources().get(record.source()));
        sources.computeIfAbsent(source.id() + "-" + copy, id -> again(source, id));
        all.add(again(record, copy));
      }
    }
    return new Evidence(once.traits(), once.plants(), sources, all);
  }

  private static Source again(Source s, String id) {
    return new Source(
        id,
        s.kind(),
        s.title(),
        s.authorsOrBody(),
        s.year(),
        s.publication(),
        s.doiOrIsbn(),
        s.url(),
        s.note(),
        null);
  }

  private static TraitRecord again(TraitRecord r, int copy) {
    Context c = r.context();
    return new TraitRecord(
        r.id() + "-" + copy,
        r.subject(),
        r.trait(),
        r.value(),
        r.method(),
        r.source() + "-" + copy,
        r.locator(),
        new Context(
            c.trial() == null ? null : c.trial() + "-" + copy,
            c.site(),
            c.scion(),
            c.plantedYear(),
            c.measuredYear(),
            c.trees(),
            c.spread(),
            c.interstem(),
            c.ageYears(),
            c.relativeTo()),
        r.note());
  }
}
