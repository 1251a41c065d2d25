package org.understock.advice;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.understock.impact.ExampleQuestion;
import org.understock.impact.KeptExamples;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.wording.Language;
import org.understock.wording.Words;

/** The kept examples asked in Spanish: not a word of English, and all else as in English. */
class SpanishTest {
  private static final Pattern ENGLISH =
      Pattern.compile(
          "(?i)\\b(the|of|and|is|are|not|with|for|from|which|it|its|this|that|here|was|were|needs|stock|tree|trees|soil|record)\\b");

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
    for (Stock stock : Starter.BOOK.plants().stocks()) text = text.replace(stock.name(), "");
    for (Variety variety : Starter.BOOK.plants().varieties())
      text = text.replace(variety.name(), "");
    return text;
  }
}
