package org.understock.advice;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.evidence.Grade;
import org.understock.evidence.Source;
import org.understock.growth.Expectations;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.pollination.Partner;

/**
 * The answer to a {@link Question}.
 *
 * @param considered number of candidate pairings looked at, those ruled out included
 * @param meanScore mean score of the pairings that were not ruled out; a pairing's score is this
 *     plus the sum of its effects
 * @param reach how far the site and the goal let any pairing come
 * @param weights the weight of each criterion that took part, summing to 1 (their mean, where they
 *     were drawn)
 * @param assumptions what was not told and therefore assumed
 */
public record Advice(
    long revision,
    int considered,
    double meanScore,
    Reach reach,
    List<Weighted> weights,
    List<Assumption> assumptions,
    List<Advised> pairings,
    List<RuledOut> ruledOut,
    int ruledOutCount,
    List<Notice> notices,
    List<Cited> sources) {

  /**
   * A source of records that the answer cites.
   *
   * @param grade the best among those of its cited records
   */
  public record Cited(Source source, Grade grade) {}

  /**
   * What the best of the considered pairings comes to: on a hard site even the best scores low, and
   * a score is to be read against it.
   *
   * @param bestScore score of the best pairing that was not ruled out; 0 when all were
   * @param text what keeps the best one from more, for people
   */
  public record Reach(double bestScore, String text) {}

  /**
   * @param weight share of the whole, 0 to 1
   */
  public record Weighted(String criterion, String label, double weight) {}

  /**
   * @param field path of the missing input, such as {@code site.soil.drainage}
   */
  public record Assumption(String field, String text) {}

  /**
   * @param score 0 to 100
   * @param low 10th percentile of the score over the draws
   * @param high 90th percentile
   * @param percentOfBest the score as a share of {@link Reach#bestScore}, 0 to 100
   * @param chanceBest share of the draws in which this pairing came first
   * @param alsoClones other clones of the same stock, on which the variety was not to be told apart
   *     from this pairing
   */
  public record Advised(
      int rank,
      Stock stock,
      Variety variety,
      @Nullable String sku,
      double score,
      double low,
      double high,
      int percentOfBest,
      double chanceBest,
      List<Stock> alsoClones,
      List<Reason> reasons,
      List<Caution> cautions,
      Expectations expectations,
      List<Partner> partners,
      List<Thin> thinEvidence,
      @Nullable String aheadOfNext) {}

  /**
   * @param effect points by which the criterion lifts (or lowers) this pairing against the mean of
   *     the considered pairings
   * @param met how well the criterion is met, 0 to 1
   */
  public record Reason(
      String criterion, double effect, double met, String text, List<String> records) {}

  public record Caution(String code, String text, List<String> records) {}

  public record Thin(String trait, String text) {}

  public record RuledOut(Stock stock, Variety variety, @Nullable String sku, List<Limit> limits) {}

  public record Limit(String criterion, String text, List<String> records) {}

  public record Notice(String code, String text) {}
}
