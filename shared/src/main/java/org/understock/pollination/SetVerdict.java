package org.understock.pollination;

import java.util.List;
import org.understock.plant.Variety;

/**
 * A set of varieties checked as a whole.
 *
 * @param pairs one verdict for each ordered pair, a variety with itself included, in the order of the set (receiver first, then donor)
 * @param complete true when every variety is known to find pollen that works, its own or another's
 * @param unpollinated varieties that no pollen in the set can serve, by what is known
 * @param unsure varieties that other pollen in the set may serve, though the evidence does not say
 * @param suggestions varieties that would help, those that serve most of the ones left first
 */
public record SetVerdict(
    List<PairVerdict> pairs, boolean complete, List<String> unpollinated, List<String> unsure, List<Variety> suggestions) {
  public SetVerdict {
    pairs = List.copyOf(pairs);
    unpollinated = List.copyOf(unpollinated);
    unsure = List.copyOf(unsure);
    suggestions = List.copyOf(suggestions);
  }
}
