package org.understock.service.store;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.understock.evidence.Estimate;
import org.understock.evidence.Evidence;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.evidence.TraitRecord;

/** The records of a revision without estimates: holds the place of the compiled trait book until pooling is there. */
final class UnpooledBook implements TraitBook {
  private final long revision;
  private final Evidence evidence;
  private final Map<String, TraitRecord> byId;
  private final Map<Subject, List<TraitRecord>> bySubject;

  UnpooledBook(long revision, Evidence evidence) {
    this.revision = revision;
    this.evidence = evidence;
    byId = evidence.records().stream().collect(Collectors.toMap(TraitRecord::id, r -> r));
    bySubject = evidence.records().stream().sorted(Comparator.comparing(TraitRecord::id)).collect(Collectors.groupingBy(TraitRecord::subject));
  }

  @Override
  public long revision() {
    return revision;
  }

  @Override
  public Evidence evidence() {
    return evidence;
  }

  @Override
  public Optional<Estimate> estimate(Subject subject, String trait) {
    return Optional.empty();
  }

  @Override
  public List<TraitRecord> records(Subject subject) {
    return bySubject.getOrDefault(subject, List.of());
  }

  @Override
  public Optional<TraitRecord> record(String id) {
    return Optional.ofNullable(byId.get(id));
  }
}
