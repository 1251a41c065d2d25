package org.understock.service.pollination;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.understock.advice.Adviser;
import org.understock.evidence.TraitBook;
import org.understock.plant.Variety;
import org.understock.pollination.BloomTime;
import org.understock.pollination.PairVerdict;
import org.understock.pollination.PollenCheck;
import org.understock.pollination.Pollination;
import org.understock.pollination.SetVerdict;
import org.understock.service.reading.Cited;
import org.understock.service.store.Snapshot;
import org.understock.wording.Words;

/** Writes the engine's verdicts down for the wire. */
final class Answers {
  /** Standard scores between which 80 of 100 lie. */
  private static final double TENTH = 1.2815515655446004;

  private Answers() {}

  static PollinationResponse of(
      SetVerdict verdict, PollenCheck check, Snapshot snapshot, Words words) {
    TraitBook book = snapshot.book();
    List<PollinationResponse.Receipt> receipts =
        verdict.receipts().stream()
            .map(r -> receipt(r, snapshot.adviser().pollination(r.variety().crop()), words))
            .toList();
    List<PollinationResponse.Pair> pairs =
        verdict.pairs().stream().map(pair -> pair(pair, words)).toList();
    Map<String, String> sources = new LinkedHashMap<>();
    pairs.forEach(p -> p.records().forEach(id -> cite(id, book, words, sources)));
    receipts.forEach(r -> r.bloom().records().forEach(id -> cite(id, book, words, sources)));
    return new PollinationResponse(
        book.revision(),
        Adviser.ENGINE_VERSION,
        verdict.complete(),
        outcome(verdict.outcome()),
        Outcome.of(verdict, words),
        verdict.in(SetVerdict.State.UNSERVED),
        verdict.in(SetVerdict.State.UNSURE),
        receipts,
        pairs,
        check.suggestions(verdict).stream()
            .map(
                s ->
                    new PollinationResponse.Suggestion(
                        s.variety().id(), s.variety().name(), s.mends(), s.mayMend(), s.proven()))
            .toList(),
        verdict.mendings().stream().map(Answers::mending).toList(),
        sources.entrySet().stream()
            .map(e -> new PollinationResponse.CitedSource(e.getKey(), e.getValue()))
            .toList());
  }

  static PollinationResponse.Pair pair(PairVerdict pair, Words words) {
    return new PollinationResponse.Pair(
        pair.pollen(),
        pair.receiver(),
        pair.verdict().id(),
        pair.overlap().id(),
        chance(pair.chanceOfOverlap()),
        pair.grade().name(),
        pair.text(words),
        pair.records());
  }

  static @Nullable Double chance(double chance) {
    return Double.isNaN(chance) ? null : Math.round(chance * 100) / 100.0;
  }

  static PollinationResponse.Named named(Variety variety) {
    return new PollinationResponse.Named(variety.id(), variety.name());
  }

  static PollinationResponse.Bloom bloom(BloomTime time, Pollination pollination) {
    Double day = time.day();
    Double sd = time.sd();
    if (day == null || sd == null)
      return new PollinationResponse.Bloom(null, null, null, null, time.group(), time.records());
    return new PollinationResponse.Bloom(
        tenth(day),
        tenth(day - TENTH * sd),
        tenth(day + TENTH * sd),
        pollination.bloomReference().map(Answers::named).orElse(null),
        time.group(),
        time.records());
  }

  private static double tenth(double days) {
    return Math.round(days * 10) / 10.0 + 0.0; // no negative zero
  }

  private static PollinationResponse.Receipt receipt(
      SetVerdict.Receipt receipt, Pollination pollination, Words words) {
    Variety variety = receipt.variety();
    return new PollinationResponse.Receipt(
        variety.id(),
        variety.name(),
        variety.crop().id(),
        receipt.state().id(),
        receipt.donors(),
        pollination.need(variety.id()).id(),
        receipt.text().in(words),
        bloom(pollination.bloom(variety.id()), pollination));
  }

  private static PollinationResponse.Mending mending(SetVerdict.Mending mending) {
    return new PollinationResponse.Mending(
        mending.mends(),
        names(mending.options()),
        mending.fewest(),
        mending.beyond(),
        names(mending.likely()),
        mending.likelyServed(),
        mending.stillBeyond());
  }

  private static List<List<PollinationResponse.Named>> names(List<List<Variety>> options) {
    return options.stream().map(option -> option.stream().map(Answers::named).toList()).toList();
  }

  private static String outcome(SetVerdict.State state) {
    return switch (state) {
      case SERVED -> "complete";
      case UNSURE -> "unsure";
      case UNSERVED -> "incomplete";
    };
  }

  private static void cite(
      String record, TraitBook book, Words words, Map<String, String> sources) {
    book.record(record)
        .map(r -> book.evidence().sources().get(r.source()))
        .ifPresent(source -> sources.putIfAbsent(source.id(), Cited.of(source, words)));
  }
}
