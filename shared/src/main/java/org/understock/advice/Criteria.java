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
  static final Criterion SIZE =
      both(
          "size",
          "Size against space and reach",
          "Height and spread as kept by the usual pruning, against the height that can be reached and the space there is.");
  static final Criterion EARLY =
      preference(
          "early-cropping",
          "Early cropping",
          "Year of the first crop, against the year it is wanted by.");
  static final Criterion YIELD =
      preference(
          "yield",
          "Yield for the space",
          "Full-grown yield for the ground that a tree takes up in its spacing.");
  static final Criterion LIFE =
      preference(
          "long-life",
          "Length of life",
          "Productive life, against the years the planting is meant to be kept.");
  static final Criterion ANCHORAGE =
      preference("anchorage", "Anchorage", "How firmly the roots hold the tree against wind.");
  static final Criterion SUPPORT =
      preference(
          "support",
          "Standing without help",
          "Support that the tree needs, against what the grower will put up.");
  static final Criterion RESERVE =
      preference(
          "vigour-reserve",
          "Vigour in reserve",
          "Strength to outgrow weeds, poor soil and neglect; very dwarfing stocks have the least.");
  static final Criterion MATCH =
      preference(
          "vigour-match",
          "Match of vigour",
          "A weak variety wants a stronger stock, a strong variety a weaker one.");
  static final Criterion COLD =
      both(
          "winter-cold",
          "Winter cold",
          "Hardiness of stock and variety, against the coldest night of a usual winter.");
  static final Criterion CHILL =
      both(
          "chill",
          "Winter chill",
          "The variety's chilling requirement against the site's chill, in the same model; one model is never converted into another.");
  static final Criterion FROST =
      both(
          "frost-at-bloom",
          "Frost at bloom",
          "How often frost around the variety's bloom would have taken the crop in the springs measured at the place; without temperatures and bloom days of the place it takes no part.");
  static final Criterion SEASON =
      limit("season", "Length of season", "Whether the variety ripens in the frost-free season.");
  static final Criterion TRACK =
      preference(
          "track-record",
          "Track record",
          "How much is on record of stock and variety: of two that promise the same, the well tried comes before the little known.");
  static final Criterion COMPATIBILITY =
      limit("compatibility", "Compatibility", "Whether variety and stock grow together for good.");
  static final Criterion POLLINATION =
      preference(
          "pollination",
          "Pollination",
          "Whether the variety sets fruit alone, or needs one or two other varieties near it.");
  static final Criterion VARIETY_DISEASE =
      preference(
          "variety-disease",
          "Health of the variety",
          "Resistance of the variety itself to the diseases of its crop, those present on the site counting most.");
  static final Criterion AVAILABILITY =
      preference(
          "availability",
          "On offer",
          "Whether the asker offers this pairing (it came with a stock-keeping unit).");

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
