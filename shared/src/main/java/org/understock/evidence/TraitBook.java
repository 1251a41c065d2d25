package org.understock.evidence;

import java.util.List;
import java.util.Optional;
import org.understock.plant.Crop;
import org.understock.plant.Plants;
import org.understock.trait.Traits;

/**
 * An immutable snapshot of one revision: its evidence and the estimates it adds up to. Compiled
 * once, shared by all requests.
 */
public interface TraitBook {
  long revision();

  Evidence evidence();

  default Traits traits() {
    return evidence().traits();
  }

  default Plants plants() {
    return evidence().plants();
  }

  /** Which stocks and varieties of a crop are advised unasked. */
  default Advisable advisable(Crop crop) {
    return Advisable.of(evidence(), crop);
  }

  /**
   * The estimate of a trait for a subject; a clone without records of its own borrows its parent's,
   * and what the root does may be borrowed from under other crops. Empty when nothing is known.
   */
  Optional<Estimate> estimate(Subject subject, String trait);

  /** All records about a subject, in the order of their ids. */
  List<TraitRecord> records(Subject subject);

  Optional<TraitRecord> record(String id);

  /**
   * How far to trust a record: as the estimate that it is part of; by itself where no estimate uses
   * it.
   */
  default Grade grade(TraitRecord record) {
    Optional<Grade> pooled =
        record.subject() instanceof Subject.Pairing
            ? Optional.empty()
            : estimate(record.subject(), record.trait())
                .map(Estimate::support)
                .filter(support -> support.records().contains(record.id()))
                .map(Estimate.Support::grade);
    return pooled.orElseGet(
        () -> Grade.of(List.of(record), traits().get(record.trait()), evidence().sources()));
  }
}
