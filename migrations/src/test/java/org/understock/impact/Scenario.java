package org.understock.impact;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.understock.advice.Adviser;
import org.understock.evidence.CompiledTraitBook;
import org.understock.evidence.Context;
import org.understock.evidence.Evidence;
import org.understock.evidence.Method;
import org.understock.evidence.RecordCheck;
import org.understock.evidence.Source;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitRecord;
import org.understock.migrations.StarterEvidence;
import org.understock.trait.Value;

/**
 * The starter evidence, its answers to the kept examples made once for all tests, and changes of it
 * by invented statements.
 */
final class Scenario {
  static final Evidence EVIDENCE = StarterEvidence.read().evidence();
  static final List<ExampleQuestion> KEPT = KeptExamples.all();
  static final Adviser ADVISER = Adviser.of(CompiledTraitBook.compile(1, EVIDENCE));
  static final ExampleAnswers ANSWERS = ExampleAnswers.of(ADVISER, KEPT);

  private Scenario() {}

  /**
   * A statement out of the first source that is neither memory nor common practice and says nothing
   * yet of the subject.
   */
  static TraitRecord record(Subject subject, String trait, Value value, Method method, int nth) {
    List<String> spoken =
        EVIDENCE.records().stream()
            .filter(r -> r.subject().equals(subject))
            .map(TraitRecord::source)
            .toList();
    List<String> unpublished = List.of(RecordCheck.MEMORY, RecordCheck.COMMON_PRACTICE);
    Source source =
        EVIDENCE.sources().values().stream()
            .filter(
                s ->
                    s.origin() == null && !spoken.contains(s.id()) && !unpublished.contains(s.id()))
            .sorted(Comparator.comparing(Source::id))
            .skip(nth)
            .findFirst()
            .orElseThrow();
    return new RecordCheck(EVIDENCE.traits(), EVIDENCE.plants(), EVIDENCE.sources())
        .make(
            new RecordCheck.Draft(
                subject, trait, value, method, source.id(), "table 2", Context.NONE, ""));
  }

  static Evidence with(TraitRecord... records) {
    List<TraitRecord> all = new ArrayList<>(EVIDENCE.records());
    all.addAll(Arrays.asList(records));
    return new Evidence(EVIDENCE.traits(), EVIDENCE.plants(), EVIDENCE.sources(), all);
  }

  static Evidence without(String... ids) {
    return new Evidence(
        EVIDENCE.traits(),
        EVIDENCE.plants(),
        EVIDENCE.sources(),
        EVIDENCE.records().stream().filter(r -> !Arrays.asList(ids).contains(r.id())).toList());
  }

  static Evidence with(Source source) {
    Map<String, Source> sources = new HashMap<>(EVIDENCE.sources());
    sources.put(source.id(), source);
    return new Evidence(EVIDENCE.traits(), EVIDENCE.plants(), sources, EVIDENCE.records());
  }
}
