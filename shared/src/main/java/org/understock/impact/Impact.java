package org.understock.impact;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.understock.advice.Adviser;
import org.understock.advice.Standing;
import org.understock.advice.Standing.Pairing;
import org.understock.evidence.CompiledTraitBook;
import org.understock.evidence.Estimate;
import org.understock.evidence.Evidence;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.evidence.TraitRecord;
import org.understock.plant.Crop;
import org.understock.plant.Plants;
import org.understock.plant.Stock;
import org.understock.plant.Variety;
import org.understock.trait.Trait;
import org.understock.trait.Trait.SubjectKind;

/**
 * What a change of the evidence does before it is made: to estimates, and to the answers to the
 * kept examples. Computed by pooling both states whole and asking both, so that whatever hangs
 * together is told: a trial's means move the stocks they were compared with, and a variance may be
 * carried to another crop.
 *
 * @param estimates those that change beyond rounding; first those that the changed records speak
 *     of, then those that move most
 * @param examples every kept example; first those whose answer changes
 */
public record Impact(List<EstimateChange> estimates, List<ExampleChange> examples) {
  public Impact {
    estimates = List.copyOf(estimates);
    examples = List.copyOf(examples);
  }

  /**
   * @param direct whether a changed record speaks of this very trait of this subject
   * @param before empty where nothing was known
   * @param after empty where nothing is known any more
   */
  public record EstimateChange(
      Subject subject,
      String trait,
      boolean direct,
      Optional<Estimate> before,
      Optional<Estimate> after) {}

  /**
   * One example before and after.
   *
   * @param moved pairings that are among the first places before or after and whose rank differs
   * @param entered pairings among the first places after that were not before
   * @param left pairings among the first places before that are not after
   * @param newlyRuledOut pairings that were listed before and are ruled out after, the best first
   * @param noLongerRuledOut pairings that were ruled out before and are listed after, the best
   *     first
   */
  public record ExampleChange(
      ExampleQuestion example,
      ExampleAnswers.Answer before,
      ExampleAnswers.Answer after,
      List<Move> moved,
      List<Pairing> entered,
      List<Pairing> left,
      List<Pairing> newlyRuledOut,
      List<Pairing> noLongerRuledOut) {

    /**
     * Whether the answer differs in what is shown of it: places, scores, ranges, who is ruled out.
     */
    public boolean changed() {
      return !places(before).equals(places(after))
          || !before.refusal().equals(after.refusal())
          || !newlyRuledOut.isEmpty()
          || !noLongerRuledOut.isEmpty();
    }
  }

  /**
   * @param from rank before; null where it was not listed
   * @param to rank after; null where it is not listed any more
   */
  public record Move(Pairing pairing, @Nullable Integer from, @Nullable Integer to) {}

  /** Of two whole states of the evidence. */
  public static Impact of(Evidence before, Evidence after, List<ExampleQuestion> kept) {
    return of(ExampleAnswers.of(Adviser.of(CompiledTraitBook.compile(1, before)), kept), after);
  }

  /** Of a state whose answers are at hand, and another. */
  public static Impact of(ExampleAnswers before, Evidence after) {
    ExampleAnswers changed = before.from(after);
    List<ExampleChange> examples = new ArrayList<>();
    for (int k = 0; k < before.answers().size(); k++)
      examples.add(change(before.answers().get(k), changed.answers().get(k)));
    examples.sort(Comparator.comparing((ExampleChange e) -> !e.changed()));
    return new Impact(estimates(before.book(), changed.book()), examples);
  }

  private static List<EstimateChange> estimates(TraitBook before, TraitBook after) {
    Set<Subject> subjects = subjects(before.plants());
    subjects.addAll(subjects(after.plants()));
    Set<String> spokenOf = spokenOf(before.evidence(), after.evidence());
    Map<EstimateChange, Double> distances = new LinkedHashMap<>();
    for (Trait trait : after.traits().all()) {
      for (Subject subject : subjects) {
        if (!trait
            .subjects()
            .contains(subject instanceof Subject.StockIn ? SubjectKind.STOCK : SubjectKind.VARIETY))
          continue;
        Optional<Estimate> was = before.estimate(subject, trait.id());
        Optional<Estimate> is = after.estimate(subject, trait.id());
        if (was.isEmpty() && is.isEmpty()) continue;
        if (was.isPresent() && is.isPresent() && Estimates.alike(was.get(), is.get())) continue;
        double distance =
            was.isPresent() && is.isPresent()
                ? Estimates.distance(was.get(), is.get())
                : Double.POSITIVE_INFINITY;
        distances.put(
            new EstimateChange(
                subject, trait.id(), spokenOf.contains(key(subject, trait.id())), was, is),
            distance);
      }
    }
    Comparator<EstimateChange> order =
        Comparator.comparing((EstimateChange c) -> !c.direct())
            .thenComparing(c -> -Objects.requireNonNull(distances.get(c)))
            .thenComparing(c -> key(c.subject(), c.trait()));
    return distances.keySet().stream().sorted(order).toList();
  }

  private static Set<Subject> subjects(Plants plants) {
    Set<Subject> subjects = new java.util.LinkedHashSet<>();
    for (Stock stock : plants.stocks())
      for (Crop crop : new TreeSet<>(stock.crops()))
        subjects.add(new Subject.StockIn(crop, stock.id()));
    for (Variety variety : plants.varieties())
      subjects.add(new Subject.OfVariety(variety.crop(), variety.id()));
    return subjects;
  }

  /** Subjects and traits of the records that only one of the two states has. */
  private static Set<String> spokenOf(Evidence before, Evidence after) {
    Set<TraitRecord> old = new HashSet<>(before.records());
    Set<TraitRecord> now = new HashSet<>(after.records());
    Set<String> spokenOf = new HashSet<>();
    for (TraitRecord record : before.records())
      if (!now.contains(record)) spokenOf.add(key(record.subject(), record.trait()));
    for (TraitRecord record : after.records())
      if (!old.contains(record)) spokenOf.add(key(record.subject(), record.trait()));
    return spokenOf;
  }

  private static String key(Subject subject, String trait) {
    return subject + " " + trait;
  }

  private static ExampleChange change(ExampleAnswers.Answer before, ExampleAnswers.Answer after) {
    List<Pairing> top = pairings(before);
    List<Pairing> topAfter = pairings(after);
    List<Pairing> order = before.standing().map(Standing::order).orElse(List.of());
    List<Pairing> orderAfter = after.standing().map(Standing::order).orElse(List.of());
    List<Move> moved = new ArrayList<>();
    Set<Pairing> either = new java.util.LinkedHashSet<>(topAfter);
    either.addAll(top);
    for (Pairing pairing : either) {
      int from = order.indexOf(pairing) + 1;
      int to = orderAfter.indexOf(pairing) + 1;
      if (from != to) moved.add(new Move(pairing, from == 0 ? null : from, to == 0 ? null : to));
    }
    return new ExampleChange(
        before.example(),
        before,
        after,
        List.copyOf(moved),
        without(topAfter, top),
        without(top, topAfter),
        both(order, ruledOut(after)),
        both(orderAfter, ruledOut(before)));
  }

  private static List<Standing.Place> places(ExampleAnswers.Answer answer) {
    return answer.standing().map(Standing::places).orElse(List.of());
  }

  private static List<Pairing> pairings(ExampleAnswers.Answer answer) {
    return places(answer).stream().map(Standing.Place::pairing).toList();
  }

  private static List<Pairing> ruledOut(ExampleAnswers.Answer answer) {
    return answer.standing().map(Standing::ruledOut).orElse(List.of());
  }

  private static List<Pairing> without(List<Pairing> pairings, List<Pairing> others) {
    return pairings.stream().filter(p -> !others.contains(p)).toList();
  }

  private static List<Pairing> both(List<Pairing> pairings, List<Pairing> others) {
    Set<Pairing> set = new HashSet<>(others);
    return pairings.stream().filter(set::contains).toList();
  }
}
