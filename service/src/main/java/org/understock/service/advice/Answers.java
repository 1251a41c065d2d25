package org.understock.service.advice;

import org.jspecify.annotations.Nullable;
import org.understock.advice.Advice;
import org.understock.advice.Adviser;
import org.understock.advice.Question;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.service.reading.Cited;
import org.understock.wording.Words;

/** Writes the engine's answer down for the wire. */
final class Answers {
  private Answers() {}

  static AdviceResponse of(@Nullable String id, Advice advice, Question question) {
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
        advice.sources().stream().map(s -> source(s, Words.in(question.language()))).toList());
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

  private static AdviceResponse.CitedSource source(Advice.Cited cited, Words words) {
    return new AdviceResponse.CitedSource(
        cited.source().id(), Cited.of(cited.source(), words), cited.grade().name());
  }

  private static AdviceResponse.Named named(Stock stock) {
    return new AdviceResponse.Named(stock.id(), stock.name());
  }

  private static AdviceResponse.Named named(Variety variety) {
    return new AdviceResponse.Named(variety.id(), variety.name());
  }
}
