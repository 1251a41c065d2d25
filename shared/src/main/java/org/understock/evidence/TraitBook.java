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
}
