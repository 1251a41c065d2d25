package org.understock.impact;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.understock.advice.Adviser;
import org.understock.advice.Standing;
import org.understock.evidence.CompiledTraitBook;
import org.understock.evidence.Estimate;
import org.understock.evidence.Evidence;
import org.understock.evidence.Method;
import org.understock.evidence.Source;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitRecord;
import org.understock.plant.Crop;
import org.understock.plant.Plants;
import org.understock.trait.Value;

/** What a change of the starter evidence does. The records are invented. */
class ImpactTest {
  private static final Subject G_41 = new Subject.StockIn(Crop.APPLE, "g-41");

  private static TraitRecord rating(String stock, Crop crop, String trait, String level, int nth) {
    return Scenario.record(
        new Subject.StockIn(crop, stock), trait, new Value.Level(level), Method.EXPERT_RATING, nth);
  }

  @Test
  void every_kept_example_is_answered_from_the_starter_evidence() {
    assertThat(Scenario.ANSWERS.answers())
        .allSatisfy(
            answer -> {
              assertThat(answer.refusal()).isEmpty();
              assertThat(answer.standing().orElseThrow().places()).hasSizeGreaterThanOrEqualTo(3);
            });
  }

  @Test
  void the_same_evidence_has_no_impact() {
    Impact impact = Impact.of(Scenario.ANSWERS, Scenario.EVIDENCE);
    assertThat(impact.estimates()).isEmpty();
    assertThat(impact.examples())
        .hasSameSizeAs(Scenario.KEPT)
        .noneMatch(Impact.ExampleChange::changed);
  }

  @Test
  void a_rating_moves_its_estimate_and_the_advice_where_it_matters() {
    Impact impact =
        Impact.of(
            Scenario.ANSWERS,
            Scenario.with(
                rating("g-41", Crop.APPLE, "fire-blight", "very-susceptible", 0),
                rating("g-41", Crop.APPLE, "fire-blight", "very-susceptible", 1),
                rating("g-41", Crop.APPLE, "fire-blight", "very-susceptible", 2)));
    Impact.EstimateChange first = impact.estimates().get(0);
    assertThat(first.subject()).isEqualTo(G_41);
    assertThat(first.trait()).isEqualTo("fire-blight");
    assertThat(first.direct()).isTrue();
    double before = ((Estimate.Levels) first.before().orElseThrow()).probabilities()[0];
    double after = ((Estimate.Levels) first.after().orElseThrow()).probabilities()[0];
    assertThat(after).isGreaterThan(before + 0.3);
    Impact.ExampleChange trellis = example(impact, "apple-market-trellis");
    assertThat(trellis.changed()).isTrue();
    assertThat(trellis.before().standing().orElseThrow().places().get(0).stock().id())
        .isEqualTo("g-41");
    assertThat(trellis.after().standing().orElseThrow().places().get(0).stock().id())
        .isNotEqualTo("g-41");
    assertThat(trellis.left())
        .isNotEmpty()
        .anyMatch(p -> p.stock().equals("g-41"))
        .hasSameSizeAs(trellis.entered());
    assertThat(trellis.moved()).anySatisfy(move -> assertThat(move.from()).isEqualTo(1));
    assertThat(impact.examples().get(0).changed()).isTrue();
    assertThat(example(impact, "peach-sand").changed()).isFalse();
  }

  @Test
  void what_was_unknown_comes_in_and_what_is_withdrawn_goes() {
    Subject subject = new Subject.OfVariety(Crop.QUINCE, "meech-s-prolific");
    TraitRecord record =
        Scenario.record(subject, "chill-hours", new Value.Quantity(450), Method.EXPERT_RATING, 0);
    assertThat(Scenario.ANSWERS.book().estimate(subject, "chill-hours")).isEmpty();
    Impact.EstimateChange comes =
        Impact.of(Scenario.ANSWERS, Scenario.with(record)).estimates().get(0);
    assertThat(comes.subject()).isEqualTo(subject);
    assertThat(comes.before()).isEmpty();
    assertThat(comes.after()).isPresent();
    Impact back =
        Impact.of(
            ExampleAnswers.of(
                Adviser.of(CompiledTraitBook.compile(2, Scenario.with(record))), Scenario.KEPT),
            Scenario.EVIDENCE);
    assertThat(back.estimates().get(0).before()).isPresent();
    assertThat(back.estimates().get(0).after()).isEmpty();
  }

  /** A stock made tender is ruled out where it is cold, and told so. */
  @Test
  void newly_ruled_out_pairings_are_told() {
    TraitRecord[] tender = new TraitRecord[12];
    Subject b9 = new Subject.StockIn(Crop.APPLE, "b-9");
    for (int k = 0; k < tender.length; k++) {
      tender[k] =
          Scenario.record(
              b9,
              "min-winter-temperature",
              new Value.Quantity(-20),
              Method.REPLICATED_MULTI_SITE,
              k);
    }
    Impact impact = Impact.of(Scenario.ANSWERS, Scenario.with(tender));
    Impact.ExampleChange cold = example(impact, "apple-cold-honeycrisp");
    assertThat(cold.newlyRuledOut()).contains(new Standing.Pairing("b-9", "honeycrisp"));
    assertThat(cold.noLongerRuledOut()).isEmpty();
    assertThat(cold.left()).contains(new Standing.Pairing("b-9", "honeycrisp"));
    assertThat(cold.moved())
        .anySatisfy(
            move -> {
              assertThat(move.pairing()).isEqualTo(new Standing.Pairing("b-9", "honeycrisp"));
              assertThat(move.to()).isNull();
            });
  }

  static Stream<Arguments> changes() {
    List<Arguments> changes = new ArrayList<>();
    // a root trait is borrowed under other crops; a variance is carried over from crop to crop;
    // lines of growth lean on all crops
    changes.add(
        Arguments.of(
            "a root trait",
            Scenario.with(rating("citation", Crop.PEACH, "wet-soil", "very-good", 0))));
    Subject gala = new Subject.OfVariety(Crop.APPLE, "gala");
    changes.add(
        Arguments.of(
            "a disease of a variety",
            Scenario.with(
                Scenario.record(
                    gala, "scab", new Value.Level("resistant"), Method.EXPERT_RATING, 0))));
    Subject quince = new Subject.StockIn(Crop.QUINCE, "quince-a");
    changes.add(
        Arguments.of(
            "a size",
            Scenario.with(
                Scenario.record(
                    quince,
                    "size-percent-of-standard",
                    new Value.Quantity(60),
                    Method.EXPERT_RATING,
                    0))));
    Random random = new Random(7);
    List<TraitRecord> all = Scenario.EVIDENCE.records();
    List<TraitRecord> trials =
        all.stream()
            .filter(
                r ->
                    r.trait().equals("trunk-cross-sectional-area")
                        && r.subject().crop() == Crop.SWEET_CHERRY)
            .toList();
    changes.add(Arguments.of("a trial mean withdrawn", Scenario.without(trials.get(0).id())));
    for (int k = 0; k < 4; k++) {
      TraitRecord record = all.get(random.nextInt(all.size()));
      changes.add(
          Arguments.of(
              record.subject() + " " + record.trait() + " withdrawn",
              Scenario.without(record.id())));
    }
    return changes.stream();
  }

  /** Examples that are not asked again have the answer that asking would give. */
  @ParameterizedTest(name = "{0}")
  @MethodSource("changes")
  void what_is_not_asked_again_is_the_same(String what, Evidence changed) {
    ExampleAnswers quick = Scenario.ANSWERS.from(changed);
    ExampleAnswers asked =
        ExampleAnswers.of(Adviser.of(CompiledTraitBook.compile(2, changed)), Scenario.KEPT);
    assertThat(quick.answers()).isEqualTo(asked.answers());
    long kept = 0;
    for (int k = 0; k < quick.answers().size(); k++)
      if (quick.answers().get(k) == Scenario.ANSWERS.answers().get(k)) kept++;
    System.out.println(
        what + ": " + kept + " of " + quick.answers().size() + " examples not asked again");
  }

  @Test
  void a_source_that_says_nothing_makes_no_example_be_asked_again() {
    ExampleAnswers quick =
        Scenario.ANSWERS.from(
            Scenario.with(
                new Source(
                    "invented-bulletin",
                    "extension-bulletin",
                    "An invented bulletin",
                    "Nobody",
                    "2020",
                    "",
                    null,
                    null,
                    "",
                    null)));
    for (int k = 0; k < quick.answers().size(); k++)
      assertThat(quick.answers().get(k)).isSameAs(Scenario.ANSWERS.answers().get(k));
  }

  @Test
  void an_example_that_can_not_be_answered_says_why() {
    Evidence none =
        new Evidence(
            Scenario.EVIDENCE.traits(),
            new Plants(List.of(), List.of()),
            Scenario.EVIDENCE.sources(),
            List.of());
    Impact impact = Impact.of(Scenario.ANSWERS, none);
    Impact.ExampleChange gala = example(impact, "apple-replanted-gala");
    assertThat(gala.after().standing()).isEmpty();
    assertThat(gala.after().refusal())
        .hasValueSatisfying(text -> assertThat(text).contains("gala"));
    assertThat(gala.changed()).isTrue();
  }

  private static Impact.ExampleChange example(Impact impact, String id) {
    Optional<Impact.ExampleChange> found =
        impact.examples().stream().filter(e -> e.example().id().equals(id)).findFirst();
    return found.orElseThrow();
  }
}
