package org.understock.advice;

import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.understock.plant.Crop;
import org.understock.site.Goal;
import org.understock.site.Site;
import org.understock.site.Soil;
import org.understock.wording.Sentence;
import org.understock.wording.Words;

/**
 * How far the computed criteria (growth, climate, pollination, health of the variety) matter on a
 * site and for a goal.
 */
final class ComputedBearings {
  static final Map<Criterion, Rated.BearingRule> RULES = new java.util.LinkedHashMap<>();

  static {
    RULES.put(Criteria.SIZE, (crop, site, goal) -> size(goal));
    RULES.put(Criteria.EARLY, (crop, site, goal) -> early(goal));
    RULES.put(Criteria.YIELD, (crop, site, goal) -> Bearing.always(1));
    RULES.put(Criteria.LIFE, (crop, site, goal) -> life(goal));
    RULES.put(Criteria.SUPPORT, (crop, site, goal) -> support(goal));
    RULES.put(Criteria.RESERVE, (crop, site, goal) -> reserve(site, goal));
    RULES.put(Criteria.MATCH, (crop, site, goal) -> Bearing.always(0.7));
    RULES.put(Criteria.COLD, (crop, site, goal) -> cold(site));
    RULES.put(Criteria.CHILL, (crop, site, goal) -> chill(site));
    RULES.put(Criteria.POLLINATION, (crop, site, goal) -> Bearing.always(1));
    RULES.put(Criteria.VARIETY_DISEASE, (crop, site, goal) -> disease(site, goal));
    RULES.put(
        Criteria.TRACK,
        (crop, site, goal) -> Bearing.always(0.5)); // tips the scale between likes, no more
  }

  private ComputedBearings() {}

  private static Bearing size(Goal goal) {
    if (goal.maxHeightM() != null && goal.widthM() != null)
      return Bearing.told(1, Sentence.of("goal.size.both"));
    if (goal.maxHeightM() != null) return Bearing.told(1, Sentence.of("goal.size"));
    if (goal.widthM() != null) {
      return Bearing.assumed(
          0.9,
          "goal.maxHeightM",
          Sentence.of("assumed.height", "reach", PairingJudgement.usualReachM(goal)));
    }
    double relevance = goal.purpose() == Goal.Purpose.LONG_LIVED_PLANTING ? 0.3 : 0.6;
    return Bearing.assumed(
        relevance,
        "goal.maxHeightM",
        Sentence.of("assumed.size", "reach", PairingJudgement.usualReachM(goal)));
  }

  private static Bearing early(Goal goal) {
    return goal.firstCropWithinYears() != null
        ? Bearing.told(
            1, Sentence.of("goal.early", "years", Math.round(goal.firstCropWithinYears())))
        : Bearing.assumed(0.7, "goal.firstCropWithinYears", Sentence.of("assumed.early"));
  }

  private static Bearing life(Goal goal) {
    return goal.keepForYears() != null
        ? Bearing.told(1, Sentence.of("goal.keep", "years", Math.round(goal.keepForYears())))
        : Bearing.assumed(
            0.6,
            "goal.keepForYears",
            Sentence.of(
                "assumed.keep", "years", Math.round(PairingJudgement.usualKeepYears(goal))));
  }

  private static Bearing support(Goal goal) {
    if (goal.support() == null)
      return Bearing.assumed(0.5, "goal.support", Sentence.of("assumed.support"));
    double relevance =
        switch (goal.support()) {
          case NONE -> 1;
          case STAKE -> 0.6;
          case TRELLIS -> 0.1;
        };
    return Bearing.told(relevance, Sentence.of("goal.support", "support", goal.support()));
  }

  private static Bearing reserve(Site site, Goal goal) {
    double hardship =
        (site.soil().fertility() == Soil.Fertility.LOW ? 0.35 : 0)
            + (site.irrigation() == Site.Irrigation.NONE ? 0.1 : 0)
            + (site.soil().depthCm() != null && site.soil().depthCm() < 50 ? 0.2 : 0);
    if (goal.care() == null)
      return Bearing.assumed(
          Math.min(1, 0.25 + hardship), "goal.care", Sentence.of("assumed.care"));
    double care =
        switch (goal.care()) {
          case CONVENTIONAL -> 0.1;
          case LOW_INPUT -> 0.7;
          case ORGANIC -> 0.7;
        };
    double relevance = Math.min(1, care + hardship);
    return goal.care() == Goal.Care.CONVENTIONAL
        ? Bearing.always(relevance)
        : Bearing.told(relevance, Sentence.of("goal.care", "care", goal.care()));
  }

  private static Bearing cold(Site site) {
    WinterDraws winters = new WinterDraws(site);
    Double night = winters.usualNightC();
    if (night == null) {
      return Bearing.assumed(0.25, "site.coldestNightC", Sentence.of("assumed.night"));
    }
    return Bearing.told(
        Math.max(0.03, Math.min(1, (-12 - night) / 14)), winters.coldest(night, Units.METRIC));
  }

  private static Bearing chill(Site site) {
    WinterDraws winters = new WinterDraws(site);
    if (site.chillHours() != null)
      return Bearing.told(
          Math.max(0.15, Math.min(1, (1300 - site.chillHours()) / 700)), winters.because(true));
    if (winters.chillKnown())
      return Bearing.told(
          Math.max(0.15, Math.min(1, (90 - winters.chill(false, 0.5)) / 45)),
          winters.because(false));
    return Bearing.assumed(0, "site.chillHours", Sentence.of("assumed.chill"));
  }

  private static Bearing disease(Site site, Goal goal) {
    List<String> listed =
        site.pressures().stream().filter(CropTables.VARIETY_DISEASES::contains).sorted().toList();
    boolean unsprayed = goal.care() == Goal.Care.ORGANIC || goal.care() == Goal.Care.LOW_INPUT;
    if (!listed.isEmpty())
      return Bearing.told(
          1,
          words ->
              Words.capital(
                  words.say(
                      "site.diseases",
                      "count",
                      listed.size(),
                      "diseases",
                      words.all(listed.stream().map(id -> words.say("topic." + id)).toList()))));
    return unsprayed ? Bearing.told(0.8, Sentence.of("site.spraying")) : Bearing.always(0.4);
  }

  /**
   * Whether a crop's asker can be told anything by a rule; used by tests to see that every
   * criterion has one.
   */
  static boolean covers(Criterion criterion) {
    return RULES.containsKey(criterion)
        || RatedCriteria.ALL.stream().anyMatch(r -> r.criterion().equals(criterion));
  }

  static Bearing of(Criterion criterion, Crop crop, Site site, Goal goal) {
    return Objects.requireNonNull(RULES.get(criterion)).of(crop, site, goal);
  }
}
