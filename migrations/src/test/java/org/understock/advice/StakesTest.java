package org.understock.advice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.understock.evidence.Subject;
import org.understock.plant.Crop;
import org.understock.site.Goal;
import org.understock.site.Site;
import org.understock.site.Soil;

/** What knowing better is worth, on the starter evidence. */
class StakesTest {
  private static final Question GALA =
      question(
          Crop.APPLE,
          Starter.HARD_SITE,
          Starter.SMALL_GARDEN,
          new Candidates(List.of(), List.of("gala"), List.of()));

  private static Question question(Crop crop, Site site, Goal goal, Candidates candidates) {
    return new Question(crop, site, goal, candidates, 10, Question.BestPer.PAIRING, Units.METRIC);
  }

  private static Judging judging(Question question) {
    return Starter.ADVISER.judging(question, new ArrayList<>());
  }

  /**
   * The mean over all draws with a level held is the mean over the draws that have it, up to
   * sampling: the regression of Strong, Oakley and Brennan (2014) on a quantity with few states,
   * made from the scores as they were drawn. If holding a level did anything else, the two would
   * part.
   */
  @Test
  void holding_a_level_gives_the_mean_of_the_draws_that_have_it() {
    Judging judging = judging(GALA);
    int compared = 0;
    int within2 = 0;
    double sumZ = 0;
    for (int i = 0; i < judging.pairs.size(); i++) {
      StockRow row = judging.tables.stocks.get(judging.pairs.get(i).stock());
      VarietyRow variety = judging.tables.varieties.get(judging.pairs.get(i).variety());
      double[] utility = judging.utility(i, new double[Draws.COUNT]);
      for (Active active : judging.active) {
        if (active.rated() == null) continue;
        for (Rated.Part part : active.rated().parts()) {
          LevelDraws draws = row.levels().get(part.trait());
          for (int level = 0; level < draws.trait().levels().size(); level++) {
            double n = 0;
            double sum = 0;
            double squares = 0;
            for (int d = 0; d < Draws.COUNT; d++) {
              if (draws.draws()[d] != level) continue;
              n++;
              sum += utility[d];
              squares += utility[d] * utility[d];
            }
            if (n < 20) continue;
            StockRow held = row.with(Stakes.replaced(row.levels(), part.trait(), level));
            Judging.Part own = new Judging.Part(judging.varietyPanel(i), variety.scores());
            double mean =
                judging.worth(i, new Judging.Part(judging.side.of(held), held.scores()), own);
            double error = Math.sqrt((squares / n - sum / n * sum / n) / n);
            double z = (mean - sum / n) / error;
            compared++;
            sumZ += z;
            if (Math.abs(z) <= 2) within2++;
          }
        }
      }
    }
    System.out.println(
        "Held levels against binned draws: "
            + compared
            + " compared, "
            + within2
            + " within two standard errors, mean z "
            + sumZ / compared);
    assertThat(compared).isGreaterThan(1000);
    assertThat((double) within2 / compared).isGreaterThan(0.93);
    assertThat(sumZ / compared).isCloseTo(0, within(0.15));
  }

  @Test
  void a_pairing_brought_what_it_has_is_worth_its_score() {
    Judging judging = judging(GALA);
    for (int i = 0; i < judging.pairs.size(); i++) {
      Judging.Pair pair = judging.pairs.get(i);
      assertThat(
              judging.worth(
                  i,
                  new Judging.Part(
                      judging.stockPanel(i), judging.tables.stocks.get(pair.stock()).scores()),
                  new Judging.Part(
                      judging.varietyPanel(i),
                      judging.tables.varieties.get(pair.variety()).scores())))
          .isEqualTo(judging.field.score[i]);
    }
  }

  @Test
  void the_most_first_and_only_of_candidates_and_of_what_matters_here() {
    Site dry =
        new Site(
            44.1,
            -18.0,
            1100.0,
            null,
            180.0,
            new Soil(
                Soil.Texture.LOAM,
                Soil.Drainage.WELL_DRAINED,
                100.0,
                6.4,
                0.5,
                Soil.Fertility.MODERATE,
                false),
            Site.Irrigation.RELIABLE,
            Site.Wind.MODERATE,
            List.of());
    Candidates three = new Candidates(List.of("m-7", "g-41", "mm-111"), List.of("gala"), List.of());
    List<Stake> stakes = Starter.ADVISER.stakes(question(Crop.APPLE, dry, Goal.UNKNOWN, three));
    assertThat(stakes)
        .isNotEmpty()
        .isSortedAccordingTo((a, b) -> Double.compare(b.points(), a.points()));
    assertThat(stakes)
        .allSatisfy(
            stake -> {
              assertThat(stake.points()).isPositive();
              assertThat(stake.wouldChange()).isGreaterThan(0).isLessThanOrEqualTo(1);
              assertThat(stake.trait())
                  .isNotIn("lime-high-ph", "salinity", "heavy-soil", "light-soil");
            });
    Set<Subject> subjects = stakes.stream().map(Stake::subject).collect(Collectors.toSet());
    assertThat(
            three.stocks().stream().map(stock -> (Subject) new Subject.StockIn(Crop.APPLE, stock)))
        .containsAll(subjects);
  }

  @Test
  void with_one_candidate_nothing_is_worth_knowing() {
    Candidates one = new Candidates(List.of("m-7"), List.of("gala"), List.of());
    assertThat(
            Starter.ADVISER.stakes(
                question(Crop.APPLE, Starter.HARD_SITE, Starter.SMALL_GARDEN, one)))
        .isEmpty();
  }

  @Test
  void the_same_question_has_the_same_stakes() {
    assertThat(Starter.ADVISER.stakes(GALA)).isEqualTo(Adviser.of(Starter.BOOK).stakes(GALA));
  }

  /** Where a union may hold or fail, E max is p max(u/p, other) + (1 - p) other, by hand. */
  @Test
  void a_doubtful_union_is_worth_what_two_states_tell() {
    int found = 0;
    for (Crop crop : List.of(Crop.EUROPEAN_PEAR, Crop.PEACH, Crop.SWEET_CHERRY))
      found += doubtfulUnions(crop);
    assertThat(found).isPositive();
  }

  private static int doubtfulUnions(Crop crop) {
    CropTables tables = judging(question(crop, Site.UNKNOWN, Goal.UNKNOWN, Candidates.ALL)).tables;
    int found = 0;
    int tried = 0;
    for (int stock = 0; stock < tables.stocks.size(); stock++) {
      for (int variety = 0; variety < tables.varieties.size(); variety++) {
        Compatibilities.Union union = tables.union(stock, variety);
        if (union.known() || union.chance() == 1 || tried++ > 20) continue;
        String id = tables.varieties.get(variety).variety().id();
        String doubtful = tables.stocks.get(stock).stock().id();
        String sure = sure(tables, variety, stock);
        Judging judging =
            judging(
                question(
                    crop,
                    Site.UNKNOWN,
                    Goal.UNKNOWN,
                    new Candidates(List.of(doubtful, sure), List.of(id), List.of())));
        double own = judging.field.score[0];
        double other = judging.field.score[1];
        double p = union.chance();
        double gained = p * Math.max(own / p, other) + (1 - p) * other - Math.max(own, other);
        double told =
            new Stakes(judging)
                .all().stream()
                    .filter(s -> s.subject() instanceof Subject.Pairing)
                    .mapToDouble(Stake::points)
                    .sum();
        assertThat(told)
            .as("%s on %s against %s", id, doubtful, sure)
            .isCloseTo(100 * gained, within(1e-9));
        if (gained > 1e-9) found++;
      }
    }
    return found;
  }

  /** A stock of whose union with the variety nothing bad is said. */
  private static String sure(CropTables tables, int variety, int not) {
    for (int stock = 0; stock < tables.stocks.size(); stock++) {
      if (stock != not && tables.union(stock, variety).chance() == 1)
        return tables.stocks.get(stock).stock().id();
    }
    throw new AssertionError(
        "no stock is known to go with " + tables.varieties.get(variety).variety().id());
  }
}
