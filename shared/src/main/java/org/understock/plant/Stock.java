package org.understock.plant;

import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.understock.trait.Refusal;

/**
 * A stock, or one of the classes that the literature speaks of in a stock's place.
 *
 * @param id lower-case slug ({@code m-9-t337})
 * @param name as the trial literature prints it
 * @param kind what sort of entry this is; only clones, seedlings and interstem trees can be planted
 * @param crops crops whose varieties it is used for, by the evidence at hand
 * @param cloneOf id of the stock of which this is a clone or strain, or null
 * @param synonyms other spellings and trade designations; search only
 */
public record Stock(
    String id,
    String name,
    Kind kind,
    Set<Crop> crops,
    @Nullable String cloneOf,
    List<String> synonyms) {

  public enum Kind {
    /** Propagated vegetatively: one genotype. */
    CLONE,
    /** Raised from seed. */
    SEEDLING,
    /** A stock with a piece of another between it and the variety. */
    INTERSTEM,
    /** The variety on its own roots. */
    OWN_ROOTS,
    /**
     * A class of sizes such as "dwarf", or a stock that the source does not name: evidence about
     * the crop, never advised.
     */
    CLASS
  }

  public Stock {
    crops = Set.copyOf(crops);
    synonyms = List.copyOf(synonyms);
    Names.check(id, name, synonyms);
    if (crops.isEmpty()) throw new Refusal.OutOfRange("crops", "empty", "one crop or more");
    if (id.equals(cloneOf))
      throw new Refusal.Conflict("cloneOf", "stock " + id + " can't be a clone of itself");
  }

  /**
   * Ids of the stocks whose evidence may speak for this one, nearest first: its own, then, for a
   * clone or strain, that of its stock.
   */
  public List<String> lineage() {
    return cloneOf == null ? List.of(id) : List.of(id, cloneOf);
  }
}
