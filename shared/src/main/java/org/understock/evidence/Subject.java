package org.understock.evidence;

import org.jspecify.annotations.Nullable;
import org.understock.plant.Crop;

/** What a record is about. */
public sealed interface Subject {
  Crop crop();

  /** A stock as it behaves under varieties of one crop. */
  record StockIn(Crop crop, String stock) implements Subject {}

  /** A variety, whatever it stands on. */
  record OfVariety(Crop crop, String variety) implements Subject {}

  /**
   * A stock under a variety, or under many.
   *
   * @param variety id, or null when the source speaks of the crop's varieties at large; then {@code
   *     reach} says how many it means
   */
  record Pairing(Crop crop, String stock, @Nullable String variety, Reach reach)
      implements Subject {
    /** How far a statement about "varieties" reaches. */
    public enum Reach {
      NAMED,
      ALL,
      MOST,
      SOME
    }
  }
}
