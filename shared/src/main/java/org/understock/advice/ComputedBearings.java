package org.understock.advice;

import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.understock.plant.Crop;
import org.understock.site.Goal;
import org.understock.site.Site;
import org.understock.site.Soil;

/**
 * How far the computed criteria (growth, climate, pollination, health of the variety) matter on a
 * site and for a goal.
 */
final class ComputedBearings {
  static final Map<Criterion, Rated.BearingRule> RULES = new java.util.LinkedHashMap<>();

  static {
    RULES.put(Criteria.SIZE, (crop, site, goal) -> size(goal));
    RULES.put(Criteria.EARLY, (crop, site, goal) -> early(goal));
    RULES.put(Criteria.YIELD, (crop, site, goal) -> Bearing.told(1, ""));
    RULES.put(Criteria.LIFE, (crop, site, goal) -> life(goal));
    RULES.put(Criteria.SUPPORT, (crop, site, goal) -> support(goal));
    RULES.put(Criteria.RESERVE, (crop, site, goal) -> reserve(site, goal));
    RULES.put(Criteria.MATCH, (crop, site, goal) -> Bearing.told(0.7, ""));
    RULES.put(Criteria.COLD, (crop, site, goal) -> cold(site));
    RULES.put(Criteria.CHILL, (crop, site, goal) -> chill(site));
    RULES.put(Criteria.POLLINATION, (crop, site, goal) -> Bearing.told(1, ""));
    RULES.put(Criteria.VARIETY_DISEASE, (crop, site, goal) -> disease(site, goal));
    RULES.put(
        Criteria.TRACK,
        (crop, site, goal) -> Bearing.told(0.5, "")); // tips the scale between likes, no more
  }

  private ComputedBearings() {}

  private static Bearing size(Goal goal) {
    if (goal.maxHeightM() != null && goal.widthM() != null)
      return Bearing.told(1, "Height and space are limited");
    if (goal.maxHeightM() != null) return Bearing.told(1, "The height is limited");
    if (goal.widthM() != null) {
      return Bearing.assumed(
          0.9,
          "goal.maxHeightM",
          "No height was given; taken as reach from a low step, about "
              + Units.decimal(PairingJudgement.usualReachM(goal))
              + " m, loosely.");
    }
    double relevance = goal.purpose() == Goal.Purpose.LONG_LIVED_PLANTING ? 0.3 : 0.6;
    return Bearing.assumed(
        relevance,
        "goal.maxHeightM",
        "Neither height nor space was given; a tree of about "
            + Units.decimal(PairingJudgement.usualReachM(goal))
            + " m was taken as wanted, loosely.");
  }

  private static Bearing early(Goal goal) {
    return goal.firstCropWithinYears() != null
        ? Bearing.told(
            1,
            "A first crop is wanted within " + Units.whole(goal.firstCropWithinYears()) + " years")
        : Bearing.assumed(
            0.7,
            "goal.firstCropWithinYears",
            "No year for the first crop was given; five years were taken as bearable.");
  }

  private static Bearing life(Goal goal) {
    return goal.keepForYears() != null
        ? Bearing.told(
            1, "The planting is to be kept for " + Units.whole(goal.keepForYears()) + " years")
        : Bearing.assumed(
            0.6,
            "goal.keepForYears",
            "No life span was given; "
                + Units.whole(PairingJudgement.usualKeepYears(goal))
                + " years were taken as wanted.");
  }

  private static Bearing support(Goal goal) {
    if (goal.support() == null)
      return Bearing.assumed(
          0.5, "goal.support", "Support was not told; a stake was taken as possible.");
    return switch (goal.support()) {
      case NONE -> Bearing.told(1, "No support will be put up");
      case STAKE -> Bearing.told(0.6, "A stake will be put up");
      case TRELLIS -> Bearing.told(0.1, "A trellis will be put up");
    };
  }

  private static Bearing reserve(Site site, Goal goal) {
    double hardship =
        (site.soil().fertility() == Soil.Fertility.LOW ? 0.35 : 0)
            + (site.irrigation() == Site.Irrigation.NONE ? 0.1 : 0)
            + (site.soil().depthCm() != null && site.soil().depthCm() < 50 ? 0.2 : 0);
    if (goal.care() == null)
      return Bearing.assumed(
          Math.min(1, 0.25 + hardship), "goal.care", "Care was not told; taken as ordinary.");
    double care =
        switch (goal.care()) {
          case CONVENTIONAL -> 0.1;
          case LOW_INPUT -> 0.7;
          case ORGANIC -> 0.7;
        };
    String because =
        goal.care() == Goal.Care.CONVENTIONAL
            ? ""
            : "Care is " + goal.care().id().replace('-', ' ');
    return Bearing.told(Math.min(1, care + hardship), because);
  }

  private static Bearing cold(Site site) {
    WinterDraws winters = new WinterDraws(site);
    Double night = winters.usualNightC();
    if (night == null) {
      return Bearing.assumed(
          0.25,
          "site.coldestNightC",
          "The coldest night was not told; no pairing was ruled out for cold, and hardiness counts a little.");
    }
    return Bearing.told(
        Math.max(0.03, Math.min(1, (-12 - night) / 14)), winters.coldest(Units.METRIC));
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
    return Bearing.assumed(
        0, "site.chillHours", "Winter chill was not told; no variety was judged by it.");
  }

  private static Bearing disease(Site site, Goal goal) {
    List<String> listed =
        site.pressures().stream()
            .filter(CropTables.VARIETY_DISEASES::contains)
            .map(disease -> disease.replace('-', ' '))
            .sorted()
            .toList();
    boolean unsprayed = goal.care() == Goal.Care.ORGANIC || goal.care() == Goal.Care.LOW_INPUT;
    if (!listed.isEmpty())
      return Bearing.told(
          1,
          RatedCriteria.capital(Wording.listed(listed))
              + (listed.size() == 1 ? " is present" : " are present"));
    return Bearing.told(unsprayed ? 0.8 : 0.4, unsprayed ? "There will be little spraying" : "");
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
