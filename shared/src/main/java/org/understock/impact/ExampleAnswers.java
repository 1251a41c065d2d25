package org.understock.impact;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.understock.advice.Adviser;
import org.understock.advice.Standing;
import org.understock.evidence.CompiledTraitBook;
import org.understock.evidence.Evidence;
import org.understock.evidence.TraitBook;
import org.understock.plant.Names;
import org.understock.trait.Refusal;

/**
 * What one state of the evidence answers to the kept examples. Immutable; of an accepted revision
 * it may be kept as long as the revision is.
 *
 * @param answers in the order of the examples
 */
public record ExampleAnswers(TraitBook book, Adviser adviser, List<Answer> answers) {
  public ExampleAnswers {
    answers = List.copyOf(answers);
  }

  /**
   * @param standing empty when the example can't be answered from this evidence
   * @param refusal why not; empty when it can
   */
  public record Answer(
      ExampleQuestion example, Optional<Standing> standing, Optional<String> refusal) {}

  /** Asks every example. */
  public static ExampleAnswers of(Adviser adviser, List<ExampleQuestion> examples) {
    List<Answer> answers = new ArrayList<>();
    for (ExampleQuestion example : examples) answers.add(ask(adviser, example));
    return new ExampleAnswers(adviser.book(), adviser, answers);
  }

  /**
   * Only the answers to these examples. @throws Refusal.Unknown for an id that is not among them
   */
  public ExampleAnswers only(List<String> ids) {
    List<String> known = answers.stream().map(answer -> answer.example().id()).toList();
    for (int k = 0; k < ids.size(); k++) {
      if (!known.contains(ids.get(k)))
        throw new Refusal.Unknown(
            "examples[" + k + "]", ids.get(k), Names.closest(ids.get(k), known, 3));
    }
    return new ExampleAnswers(
        book,
        adviser,
        answers.stream().filter(answer -> ids.contains(answer.example().id())).toList());
  }

  /**
   * What the examples would be answered from other evidence. Those whose crop the difference does
   * not touch are not asked again; see {@link Touched} for why their answers are the same to the
   * last bit.
   */
  ExampleAnswers from(Evidence evidence) {
    TraitBook changed = CompiledTraitBook.compile(book.revision() + 1, evidence);
    Adviser other = Adviser.of(changed);
    Touched touched = new Touched(adviser, other);
    List<Answer> again = new ArrayList<>();
    for (Answer answer : answers)
      again.add(
          touched.crop(answer.example().question().crop()) ? ask(other, answer.example()) : answer);
    return new ExampleAnswers(changed, other, again);
  }

  private static Answer ask(Adviser adviser, ExampleQuestion example) {
    try {
      return new Answer(example, Optional.of(adviser.stand(example.question())), Optional.empty());
    } catch (Refusal refusal) {
      return new Answer(example, Optional.empty(), Optional.of(refusal.getMessage()));
    }
  }
}
