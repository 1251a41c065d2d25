package org.understock.advice;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashSet;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.understock.advice.Standing.Pairing;
import org.understock.plant.Crop;

/** A standing is an answer without words: the same places, the same numbers. */
class StandingTest {
  @ParameterizedTest
  @EnumSource(Question.BestPer.class)
  void places_are_those_of_the_advice(Question.BestPer per) {
    for (Crop crop : List.of(Crop.APPLE, Crop.SWEET_CHERRY)) {
      Question question =
          new Question(
              crop, Starter.HARD_SITE, Starter.SMALL_GARDEN, Candidates.ALL, 20, per, Units.METRIC);
      Advice advice = Starter.ADVISER.advise(question);
      Standing standing = Starter.ADVISER.stand(question);
      assertThat(standing.places())
          .isEqualTo(
              advice.pairings().stream()
                  .map(
                      p ->
                          new Standing.Place(
                              p.rank(), p.stock(), p.variety(), p.score(), p.low(), p.high()))
                  .toList());
      assertThat(standing.considered()).isEqualTo(advice.considered());
      assertThat(standing.meanScore()).isEqualTo(advice.meanScore());
      assertThat(standing.ruledOut()).hasSize(advice.ruledOutCount());
      assertThat(standing.order().subList(0, standing.places().size()))
          .isEqualTo(standing.places().stream().map(Standing.Place::pairing).toList());
      HashSet<Pairing> all = new HashSet<>(standing.order());
      all.addAll(standing.ruledOut());
      assertThat(all).hasSize(standing.order().size() + standing.ruledOut().size());
      if (per == Question.BestPer.PAIRING) assertThat(all).hasSize(standing.considered());
    }
  }
}
