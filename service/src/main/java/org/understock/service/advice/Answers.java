package org.understock.service.advice;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.understock.advice.Advice;
import org.understock.advice.Adviser;
import org.understock.advice.Question;
import org.understock.evidence.Estimate;
import org.understock.evidence.Grade;
import org.understock.evidence.Source;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.evidence.TraitRecord;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.service.reading.Cited;
import org.understock.wording.Words;

/** Writes the engine's answer down for the wire. */
final class Answers {
  private Answers() {}

  static AdviceResponse of(@Nullable String id, Advice advice, Question question, TraitBook book) {
    Map<String, Grade> grades = grades(advice, book);
    return new AdviceResponse(
        id,
        advice.revision(),
        Adviser.ENGINE_VERSION,
        question.crop().id(),
        advice.considered(),
        advice.meanScore(),
        new AdviceResponse.Reach(advice.reach().bestScore(), advice.reach().text()),
        advice.weights().stream()
            .map(w -> new AdviceResponse.Weight(w.criterion(), w.label(), w.weight()))
            .toList(),
        advice.assumptions().stream().map(Advice.Assumption::field).toList(),
        advice.assumptions().stream()
            .map(a -> new AdviceResponse.Assumption(a.field(), a.text()))
            .toList(),
        advice.pairings().stream().map(p -> pairing(p, question)).toList(),
        advice.ruledOut().stream().map(Answers::ruledOut).toList(),
        advice.ruledOutCount(),
        advice.notices().stream().map(n -> new AdviceResponse.Notice(n.code(), n.text())).toList(),
        advice.sources().stream()
            .map(s -> source(s, grades, Words.in(question.language())))
            .toList());
  }

  private static AdviceResponse.Pairing pairing(Advice.Advised p, Question question) {
    return new AdviceResponse.Pairing(
        p.rank(),
        named(p.stock()),
        named(p.variety()),
        p.sku(),
        p.score(),
        new AdviceResponse.ScoreRange(p.low(), p.high()),
        p.percentOfBest(),
        p.chanceBest(),
        p.alsoClones().stream().map(Answers::named).toList(),
        p.reasons().stream()
            .map(
                r ->
                    new AdviceResponse.Reason(
                        r.criterion(), r.effect(), r.met(), r.text(), r.records()))
            .toList(),
        p.cautions().stream()
            .map(c -> new AdviceResponse.Caution(c.code(), c.text(), c.records()))
            .toList(),
        ExpectationsResponse.of(p.expectations(), question.goal().keepForYears()),
        p.partners().stream()
            .map(
                q ->
                    new AdviceResponse.Partner(
                        named(q.variety()),
                        q.pair().verdict().id(),
                        q.pair().overlap().id(),
                        q.text().in(Words.in(question.language()))))
            .toList(),
        p.thinEvidence().stream().map(t -> new AdviceResponse.Thin(t.trait(), t.text())).toList(),
        p.aheadOfNext());
  }

  private static AdviceResponse.RuledOut ruledOut(Advice.RuledOut r) {
    return new AdviceResponse.RuledOut(
        named(r.stock()),
        named(r.variety()),
        r.sku(),
        r.limits().stream()
            .map(l -> new AdviceResponse.Limit(l.criterion(), l.text(), l.records()))
            .toList());
  }

  private static AdviceResponse.CitedSource source(
      Source source, Map<String, Grade> grades, Words words) {
    Grade grade = grades.get(source.id());
    if (grade == null)
      throw new IllegalStateException(
          "source " + source.id() + " is named, but none of its records is cited");
    return new AdviceResponse.CitedSource(source.id(), Cited.of(source, words), grade.name());
  }

  private static AdviceResponse.Named named(Stock stock) {
    return new AdviceResponse.Named(stock.id(), stock.name());
  }

  private static AdviceResponse.Named named(Variety variety) {
    return new AdviceResponse.Named(variety.id(), variety.name());
  }

  /**
   * By source: the best grade among the estimates that its cited records support; a record that no
   * estimate uses counts by itself.
   */
  private static Map<String, Grade> grades(Advice advice, TraitBook book) {
    Map<String, Grade> grades = new TreeMap<>();
    for (String id : cited(advice)) {
      book.record(id)
          .ifPresent(
              record ->
                  grades.merge(
                      record.source(), grade(record, book), (a, b) -> a.compareTo(b) <= 0 ? a : b));
    }
    return grades;
  }

  private static Grade grade(TraitRecord record, TraitBook book) {
    if (record.subject() instanceof Subject.Pairing) return alone(record, book);
    return book.estimate(record.subject(), record.trait())
        .map(Estimate::support)
        .filter(s -> s.records().contains(record.id()))
        .map(Estimate.Support::grade)
        .orElseGet(() -> alone(record, book));
  }

  private static Grade alone(TraitRecord record, TraitBook book) {
    return Grade.of(
        List.of(record), book.evidence().traits().get(record.trait()), book.evidence().sources());
  }

  private static Set<String> cited(Advice advice) {
    List<Collection<String>> all = new ArrayList<>();
    for (Advice.Advised pairing : advice.pairings()) {
      pairing.reasons().forEach(r -> all.add(r.records()));
      pairing.cautions().forEach(c -> all.add(c.records()));
    }
    for (Advice.RuledOut out : advice.ruledOut()) out.limits().forEach(l -> all.add(l.records()));
    Set<String> ids = new LinkedHashSet<>();
    all.forEach(ids::addAll);
    return ids;
  }
}
