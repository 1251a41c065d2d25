package org.understock.advice;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.understock.impact.ExampleQuestion;
import org.understock.impact.KeptExamples;
import org.understock.plant.Crop;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.wording.Language;
import org.understock.wording.Words;

/** The kept examples and cards in Spanish: not a word of English, and all else as in English. */
class SpanishTest {
  private static final Pattern ENGLISH =
      Pattern.compile(
          "(?i)\\b(the|of|and|is|are|not|with|for|from|which|it|its|this|that|here|was|were|needs|stock|tree|trees|soil|record)\\b");

  /** The longest first, so that what is left of none is taken for a word. */
  private static final List<String> NAMES =
      Stream.concat(
              Starter.BOOK.plants().stocks().stream().map(Stock::name),
              Starter.BOOK.plants().varieties().stream().map(Variety::name))
          .sorted(Comparator.comparing(name -> -name.length()))
          .toList();

  @TestFactory
  Stream<DynamicTest> keptExamples() {
    return KeptExamples.all().stream().map(e -> DynamicTest.dynamicTest(e.id(), () -> ask(e)));
  }

  private static void ask(ExampleQuestion example) {
    Advice english = Starter.ADVISER.advise(in(example.question(), Language.ENGLISH));
    Advice spanish = Starter.ADVISER.advise(in(example.question(), Language.SPANISH));
    assertThat(numbers(spanish)).isEqualTo(numbers(english));
    List<String> texts = texts(spanish, Words.in(Language.SPANISH));
    assertThat(texts).hasSameSizeAs(texts(english, Words.ENGLISH)).hasSizeGreaterThan(20);
    for (String text : texts)
      assertThat(ENGLISH.matcher(withoutNames(text)).find()).as(text).isFalse();
  }

  /** Every stock of every crop once: not a word of English on its card, and all else as there. */
  @TestFactory
  Stream<DynamicTest> portraits() {
    return Arrays.stream(Crop.values())
        .map(crop -> DynamicTest.dynamicTest(crop.id(), () -> portraits(crop)));
  }

  private static void portraits(Crop crop) {
    List<Variety> varieties =
        Starter.BOOK.plants().varieties().stream().filter(v -> v.crop() == crop).toList();
    int seen = 0;
    for (Stock stock : Starter.BOOK.plants().stocks()) {
      if (!stock.crops().contains(crop) || stock.kind() == Stock.Kind.CLASS) continue;
      String variety = varieties.get(7 * seen % varieties.size()).id();
      Portrait english = portrait(crop, stock, variety, Language.ENGLISH);
      Portrait spanish = portrait(crop, stock, variety, Language.SPANISH);
      assertThat(figures(spanish)).isEqualTo(figures(english));
      List<String> texts = texts(spanish, Words.in(Language.SPANISH));
      assertThat(texts).hasSameSizeAs(texts(english, Words.ENGLISH)).hasSizeGreaterThan(15);
      for (String text : texts)
        assertThat(ENGLISH.matcher(withoutNames(text)).find()).as(text).isFalse();
      seen++;
    }
    assertThat(seen).isPositive();
  }

  private static Portrait portrait(Crop crop, Stock stock, String variety, Language language) {
    return Starter.ADVISER.portrait(crop, stock.id(), variety, Units.METRIC, language);
  }

  private static List<Object> figures(Portrait p) {
    List<Object> figures = new ArrayList<>(List.of(p.union().state(), p.sources(), p.bloom()));
    p.basis().forEach(b -> figures.add(List.of(b.figure(), b.basis(), b.grade(), b.records())));
    p.ratings().forEach(r -> figures.add(List.of(r.trait(), r.stand(), r.sources(), r.records())));
    p.cold().forEach(c -> figures.add(c.records()));
    p.care().forEach(c -> figures.add(List.of(c.topic(), c.records())));
    p.cautions().forEach(c -> figures.add(c.code()));
    return figures;
  }

  private static List<String> texts(Portrait p, Words words) {
    List<String> texts = new ArrayList<>();
    texts.add(p.union().text());
    texts.addAll(p.unrated());
    texts.add(p.pollen().text().in(words));
    if (p.harvest() != null) texts.add(p.harvest().text());
    p.basis().forEach(b -> texts.add(b.text()));
    p.ratings().forEach(r -> texts.addAll(List.of(r.topic(), r.word(), r.text())));
    p.cold().forEach(c -> texts.add(c.text()));
    p.care().forEach(c -> texts.add(c.text()));
    p.cautions().forEach(c -> texts.add(c.text()));
    p.notices().forEach(n -> texts.add(n.text()));
    p.partners().forEach(q -> texts.add(q.pair().text(words)));
    p.chill().forEach(c -> texts.add(c.measure().label().in(words)));
    return texts;
  }

  private static Question in(Question q, Language language) {
    return new Question(
        q.crop(),
        q.site(),
        q.goal(),
        q.candidates(),
        q.limit(),
        q.bestPer(),
        q.units(),
        q.springs(),
        language);
  }

  /** Scores, effects and records: all that is no text. */
  private static List<Object> numbers(Advice advice) {
    List<Object> numbers = new ArrayList<>();
    numbers.add(advice.reach().bestScore());
    advice.weights().forEach(w -> numbers.add(w.criterion() + w.weight()));
    advice.assumptions().forEach(a -> numbers.add(a.field()));
    for (Advice.Advised p : advice.pairings()) {
      numbers.add(List.of(p.stock().id(), p.variety().id(), p.score(), p.low(), p.high()));
      p.reasons().forEach(r -> numbers.add(List.of(r.criterion(), r.effect(), r.records())));
      p.cautions().forEach(c -> numbers.add(List.of(c.code(), c.records())));
      p.thinEvidence().forEach(t -> numbers.add(t.trait()));
    }
    advice.ruledOut().forEach(r -> r.limits().forEach(l -> numbers.add(l.criterion())));
    advice.notices().forEach(n -> numbers.add(n.code()));
    numbers.add(advice.sources());
    return numbers;
  }

  private static List<String> texts(Advice advice, Words words) {
    List<String> texts = new ArrayList<>();
    texts.add(advice.reach().text());
    advice.weights().forEach(w -> texts.add(w.label()));
    advice.assumptions().forEach(a -> texts.add(a.text()));
    advice.notices().forEach(n -> texts.add(n.text()));
    for (Advice.Advised p : advice.pairings()) {
      p.reasons().forEach(r -> texts.add(r.text()));
      p.cautions().forEach(c -> texts.add(c.text()));
      p.thinEvidence().forEach(t -> texts.add(t.text()));
      p.partners().forEach(q -> texts.add(q.pair().text(words)));
      if (p.aheadOfNext() != null) texts.add(p.aheadOfNext());
    }
    advice.ruledOut().forEach(r -> r.limits().forEach(l -> texts.add(l.text())));
    return texts;
  }

  /** Plants' names stay as they are, whatever the language. */
  private static String withoutNames(String text) {
    if (!ENGLISH.matcher(text).find()) return text;
    for (String name : NAMES) text = text.replace(name, "");
    return text;
  }
}
