package org.understock.evidence.pooling;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Predicate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.understock.evidence.Estimate;
import org.understock.evidence.Evidence;
import org.understock.evidence.Source;
import org.understock.evidence.TraitRecord;
import org.understock.migrations.StarterEvidence;
import org.understock.plant.Plants;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.trait.Trait;

/** Pools made from another revision's are, to the last bit, those made from nothing. */
class TakenOverTest {
  private static final Evidence ALL = StarterEvidence.read().evidence();

  @Test
  void whereNothingDiffersAllIsTakenOver() {
    TraitPools near = TraitPools.of(ALL);
    Evidence again = StarterEvidence.read().evidence();
    TraitPools made = TraitPools.of(again, near);
    assertThat(texts(made)).isEqualTo(texts(near)).isNotEmpty();
    near.estimates()
        .forEach(
            (subject, byTrait) ->
                byTrait.forEach(
                    (trait, estimate) ->
                        assertThat(made.estimates().get(subject).get(trait)).isSameAs(estimate)));
  }

  @Test
  void onlyTheTraitThatDiffersIsPooledAnew() {
    TraitPools near = TraitPools.of(ALL);
    TraitRecord gone = first(r -> r.trait().equals("fire-blight"));
    TraitPools made = TraitPools.of(records(r -> !r.equals(gone)), near);
    made.estimates()
        .forEach(
            (subject, byTrait) ->
                byTrait.forEach(
                    (trait, estimate) -> {
                      Estimate before = near.estimates().get(subject).get(trait);
                      if (trait.equals("fire-blight")) assertThat(estimate).isNotSameAs(before);
                      else assertThat(estimate).isSameAs(before);
                    }));
  }

  @ParameterizedTest
  @EnumSource(Trait.Scale.class)
  void aRecordOfAnyScaleMayComeOrGo(Trait.Scale scale) {
    TraitRecord one = first(r -> ALL.traits().get(r.trait()).scale() == scale);
    comesAndGoes(records(r -> !r.equals(one)));
  }

  @Test
  void aWholeTraitOfTrialMeansMayComeOrGo() {
    comesAndGoes(records(r -> !r.trait().equals("trunk-cross-sectional-area")));
  }

  private static void comesAndGoes(Evidence less) {
    TraitPools all = TraitPools.of(ALL);
    TraitPools fresh = TraitPools.of(less);
    assertThat(texts(TraitPools.of(less, all))).isEqualTo(texts(fresh)).isNotEqualTo(texts(all));
    assertThat(texts(TraitPools.of(ALL, fresh))).isEqualTo(texts(all));
  }

  /** Two sources that turn out to be one voice change every estimate that leans on both. */
  @Test
  void aSourceMayTurnOutToRestateAnother() {
    Map<String, Long> spoken = new TreeMap<>();
    ALL.records().forEach(r -> spoken.merge(r.source(), 1L, Long::sum));
    List<String> most =
        spoken.entrySet().stream()
            .sorted(Map.Entry.<String, Long>comparingByValue(Comparator.reverseOrder()))
            .map(Map.Entry::getKey)
            .limit(2)
            .toList();
    Map<String, Source> sources = new HashMap<>(ALL.sources());
    Source one = ALL.sources().get(most.get(0));
    sources.put(
        one.id(),
        new Source(
            one.id(),
            one.kind(),
            one.title(),
            one.authorsOrBody(),
            one.year(),
            one.publication(),
            one.doiOrIsbn(),
            one.url(),
            one.note(),
            most.get(1)));
    Evidence changed = new Evidence(ALL.traits(), ALL.plants(), sources, ALL.records());
    differs(changed);
  }

  @Test
  void aCloneMayBeTiedToAnotherStock() {
    List<Stock> stocks =
        ALL.plants().stocks().stream()
            .map(
                s ->
                    s.cloneOf() == null
                        ? s
                        : new Stock(s.id(), s.name(), s.kind(), s.crops(), null, s.synonyms()))
            .toList();
    differs(
        new Evidence(
            ALL.traits(),
            new Plants(stocks, ALL.plants().varieties()),
            ALL.sources(),
            ALL.records()));
  }

  /** Days counted from a variety that is found no more are a list without a beginning. */
  @Test
  void theVarietyThatDaysAreCountedFromMayBeFoundNoMore() {
    TraitRecord relative = first(r -> r.context().relativeTo() != null);
    Variety zero =
        ALL.plants()
            .resolveVariety(relative.subject().crop(), relative.context().relativeTo())
            .orElseThrow();
    List<Variety> varieties =
        ALL.plants().varieties().stream().filter(v -> !v.equals(zero)).toList();
    Predicate<TraitRecord> others = r -> !r.subject().toString().contains(zero.id());
    Evidence before = records(others);
    Evidence after =
        new Evidence(
            ALL.traits(),
            new Plants(ALL.plants().stocks(), varieties),
            ALL.sources(),
            before.records());
    assertThat(texts(TraitPools.of(after, TraitPools.of(before))))
        .isEqualTo(texts(TraitPools.of(after)))
        .isNotEqualTo(texts(TraitPools.of(before)));
  }

  private static void differs(Evidence changed) {
    TraitPools all = TraitPools.of(ALL);
    assertThat(texts(TraitPools.of(changed, all)))
        .isEqualTo(texts(TraitPools.of(changed)))
        .isNotEqualTo(texts(all));
  }

  private static TraitRecord first(Predicate<TraitRecord> which) {
    return ALL.records().stream().filter(which).findFirst().orElseThrow();
  }

  private static Evidence records(Predicate<TraitRecord> kept) {
    return new Evidence(
        ALL.traits(), ALL.plants(), ALL.sources(), ALL.records().stream().filter(kept).toList());
  }

  /** All that pools tell, to the last digit. */
  private static List<String> texts(TraitPools pools) {
    List<String> texts = new ArrayList<>();
    pools
        .estimates()
        .forEach(
            (subject, byTrait) ->
                byTrait.forEach((trait, e) -> texts.add(subject + " " + trait + " " + text(e))));
    pools
        .underAnyCrop()
        .forEach(
            (stock, byTrait) ->
                byTrait.forEach((trait, e) -> texts.add(stock + " " + trait + " " + text(e))));
    texts.add(pools.references().toString());
    texts.sort(null);
    return texts;
  }

  private static String text(Estimate estimate) {
    return estimate instanceof Estimate.Levels levels
        ? levels.levels() + Arrays.toString(levels.alpha()) + levels.support()
        : estimate.toString();
  }
}
