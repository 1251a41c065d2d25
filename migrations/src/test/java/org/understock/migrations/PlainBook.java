package org.understock.migrations;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.understock.evidence.Estimate;
import org.understock.evidence.Evidence;
import org.understock.evidence.Grade;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.evidence.TraitRecord;
import org.understock.trait.Trait;
import org.understock.trait.Value;

/**
 * A trait book in which every record is one equal voice and quantities are plain means: what the
 * starter evidence says on its face, without the pooling. It lets tests tell a wrong rule or a
 * wrong row from a question of weights.
 */
final class PlainBook implements TraitBook {
  private final Evidence evidence;
  private final Map<Subject, List<TraitRecord>> bySubject = new HashMap<>();

  PlainBook(Evidence evidence) {
    this.evidence = evidence;
    for (TraitRecord record : evidence.records())
      bySubject.computeIfAbsent(record.subject(), s -> new ArrayList<>()).add(record);
  }

  @Override
  public long revision() {
    return 1;
  }

  @Override
  public Evidence evidence() {
    return evidence;
  }

  @Override
  public List<TraitRecord> records(Subject subject) {
    return bySubject.getOrDefault(subject, List.of());
  }

  @Override
  public Optional<TraitRecord> record(String id) {
    return evidence.records().stream().filter(r -> r.id().equals(id)).findFirst();
  }

  @Override
  public Optional<Estimate> estimate(Subject subject, String traitId) {
    List<TraitRecord> records =
        records(subject).stream().filter(r -> r.trait().equals(traitId)).toList();
    if (records.isEmpty()) return Optional.empty();
    Trait trait = traits().get(traitId);
    Estimate.Support support =
        new Estimate.Support(
            records.stream().map(TraitRecord::id).toList(), 1, Grade.C, Optional.empty());
    return Optional.ofNullable(
        switch (trait.scale()) {
          case LEVELS -> levels(trait, records, support);
          case NAMES -> names(records, support);
          case INTERVAL -> new Estimate.Interval(trait.unit(), mean(records), 1, 2, support);
          case QUANTITY, CONTRAST -> null;
        });
  }

  private static Estimate levels(Trait trait, List<TraitRecord> records, Estimate.Support support) {
    double[] alpha = new double[trait.levels().size()];
    Arrays.fill(alpha, 1.0 / alpha.length);
    for (TraitRecord record : records)
      if (record.value() instanceof Value.Level level) alpha[trait.levelIndex(level.level())]++;
    return new Estimate.Levels(trait.levels(), alpha, support);
  }

  private static Estimate names(List<TraitRecord> records, Estimate.Support support) {
    Map<String, Double> votes = new TreeMap<>();
    for (TraitRecord record : records)
      votes.merge(((Value.Name) record.value()).name(), 1.0, Double::sum);
    Map<String, Double> ordered = new LinkedHashMap<>();
    votes.entrySet().stream()
        .sorted(Map.Entry.comparingByValue(Comparator.reverseOrder()))
        .forEach(e -> ordered.put(e.getKey(), e.getValue()));
    return new Estimate.Named(ordered, support);
  }

  private static double mean(List<TraitRecord> records) {
    double sum = 0;
    for (TraitRecord record : records) {
      sum +=
          record.value() instanceof Value.Quantity quantity
              ? quantity.value()
              : middle((Value.Range) record.value());
    }
    return sum / records.size();
  }

  private static double middle(Value.Range range) {
    return range.low() == null
        ? range.high()
        : range.high() == null ? range.low() : (range.low() + range.high()) / 2;
  }
}
