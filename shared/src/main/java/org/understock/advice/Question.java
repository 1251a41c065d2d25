package org.understock.advice;

import org.understock.climate.Springs;
import org.understock.plant.Crop;
import org.understock.site.Goal;
import org.understock.site.Site;
import org.understock.site.Word;
import org.understock.trait.Refusal;
import org.understock.wording.Language;

/**
 * One request for advice.
 *
 * @param limit how many pairings to answer with, 1 to 100
 * @param springs what is known of the springs of the site
 * @param language of the texts
 */
public record Question(
    Crop crop,
    Site site,
    Goal goal,
    Candidates candidates,
    int limit,
    BestPer bestPer,
    Units units,
    Springs springs,
    Language language) {
  public static final int MOST = 100;

  public Question {
    if (limit < 1 || limit > MOST)
      throw new Refusal.OutOfRange("limit", limit, "between 1 and " + MOST);
  }

  /** Of a place of whose springs nothing is known, in English. */
  public Question(
      Crop crop,
      Site site,
      Goal goal,
      Candidates candidates,
      int limit,
      BestPer bestPer,
      Units units) {
    this(crop, site, goal, candidates, limit, bestPer, units, Springs.UNKNOWN, Language.ENGLISH);
  }

  /**
   * Whether the answer lists every pairing, or only the best one of each stock or of each variety.
   */
  public enum BestPer implements Word {
    PAIRING,
    STOCK,
    VARIETY
  }
}
