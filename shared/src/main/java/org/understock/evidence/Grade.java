package org.understock.evidence;

import java.util.Collection;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;

/**
 * How much an estimate can bear, A (most) to D. Computed from its records by this rule, never typed in:
 *
 * <ul>
 *   <li><b>A</b>: a trial over several sites, and two or more voices;
 *   <li><b>B</b>: any replicated trial, or three or more published voices;
 *   <li><b>C</b>: a published statement;
 *   <li><b>D</b>: growers' observations, common practice or memory only.
 * </ul>
 *
 * Sources of one origin are one voice. An estimate borrowed from a stock's parent is one grade lower.
 */
public enum Grade {
  A,
  B,
  C,
  D;

  /** @param sources all sources by id */
  public static Grade of(Collection<TraitRecord> records, Map<String, Source> sources) {
    boolean multiSite = false;
    boolean trial = false;
    Set<String> published = new HashSet<>();
    for (TraitRecord record : records) {
      switch (record.method()) {
        case REPLICATED_MULTI_SITE -> multiSite = trial = true;
        case REPLICATED_SINGLE_SITE -> trial = true;
        case EXPERT_RATING, BREEDER_STATEMENT -> { }
        case GROWER_OBSERVATION, COMMON_PRACTICE, FROM_MEMORY -> {
          continue;
        }
      }
      published.add(voice(record, sources));
    }
    if (multiSite && published.size() >= 2) return A;
    if (trial || published.size() >= 3) return B;
    return published.isEmpty() ? D : C;
  }

  /** Id under which a record's source speaks: its origin's, where it restates one. */
  public static String voice(TraitRecord record, Map<String, Source> sources) {
    Source source = sources.get(record.source());
    return source == null || source.origin() == null ? record.source() : source.origin();
  }

  Grade lower() {
    return this == D ? D : values()[ordinal() + 1];
  }
}
