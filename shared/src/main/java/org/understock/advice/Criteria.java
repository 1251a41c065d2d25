package org.understock.advice;

import static org.understock.advice.Criterion.both;
import static org.understock.advice.Criterion.limit;
import static org.understock.advice.Criterion.preference;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.understock.plant.Names;
import org.understock.trait.Refusal;

/** All criteria by id. */
public final class Criteria {
  static final Criterion SIZE = both("size");
  static final Criterion EARLY = preference("early-cropping");
  static final Criterion YIELD = preference("yield");
  static final Criterion LIFE = preference("long-life");
  static final Criterion ANCHORAGE = preference("anchorage");
  static final Criterion SUPPORT = preference("support");
  static final Criterion RESERVE = preference("vigour-reserve");
  static final Criterion MATCH = preference("vigour-match");
  static final Criterion COLD = both("winter-cold");
  static final Criterion CHILL = both("chill");
  static final Criterion FROST = both("frost-at-bloom");
  static final Criterion SEASON = limit("season");
  static final Criterion TRACK = preference("track-record");
  static final Criterion COMPATIBILITY = limit("compatibility");
  static final Criterion POLLINATION = preference("pollination");
  static final Criterion VARIETY_DISEASE = preference("variety-disease");
  static final Criterion AVAILABILITY = preference("availability");

  private Criteria() {}

  /** All criteria, in the order in which ties between reasons are broken. */
  public static List<Criterion> all() {
    return List.copyOf(Index.BY_ID.values());
  }

  /**
   * @throws Refusal.Unknown naming the nearest criteria
   */
  static Criterion get(String field, String id) {
    Criterion criterion = Index.BY_ID.get(id);
    if (criterion == null || !criterion.preference()) {
      List<String> nearest =
          Index.BY_ID.values().stream()
              .filter(Criterion::preference)
              .map(Criterion::id)
              .sorted(
                  Comparator.comparingInt((String known) -> Names.editDistance(known, id))
                      .thenComparing(known -> known))
              .limit(5)
              .toList();
      throw new Refusal.Unknown(field, id, nearest);
    }
    return criterion;
  }

  /** Apart from the constants, because the rated criteria are made from them and listed here. */
  private static final class Index {
    private static final Map<String, Criterion> BY_ID = new LinkedHashMap<>();

    static {
      List<Criterion> all =
          new ArrayList<>(
              List.of(
                  SIZE,
                  EARLY,
                  YIELD,
                  LIFE,
                  ANCHORAGE,
                  SUPPORT,
                  RESERVE,
                  MATCH,
                  COLD,
                  CHILL,
                  FROST,
                  SEASON,
                  COMPATIBILITY,
                  POLLINATION,
                  VARIETY_DISEASE,
                  TRACK,
                  AVAILABILITY));
      for (Rated rated : RatedCriteria.ALL)
        if (!all.contains(rated.criterion())) all.add(rated.criterion());
      for (Criterion criterion : all) BY_ID.put(criterion.id(), criterion);
    }
  }
}
