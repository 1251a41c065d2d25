package org.understock.evidence;

import java.util.List;
import java.util.Map;
import org.understock.plant.Plants;
import org.understock.trait.Traits;

/**
 * Everything accepted as of one revision: what the store hands to the engine.
 *
 * @param sources by id
 * @param records in the order of their ids
 */
public record Evidence(
    Traits traits, Plants plants, Map<String, Source> sources, List<TraitRecord> records) {
  public Evidence {
    sources = Map.copyOf(sources);
    records = records.stream().sorted(java.util.Comparator.comparing(TraitRecord::id)).toList();
  }
}
