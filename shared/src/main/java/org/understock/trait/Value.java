package org.understock.trait;

import org.jspecify.annotations.Nullable;

/**
 * What one record says: a quantity or range in the trait's unit, one level or a range of levels, or
 * a name.
 */
public sealed interface Value {

  /** A single quantity in the trait's unit. */
  record Quantity(double value) implements Value {}

  /**
   * A quantity given as a range in the trait's unit. One end may be open: "6 m or more" has {@code
   * high == null}, "up to 9.1 m" has {@code low == null}.
   */
  record Range(@Nullable Double low, @Nullable Double high) implements Value {
    public Range {
      if (low == null && high == null)
        throw new Refusal.Conflict("value", "a range needs at least one end");
      if (low != null && high != null && low > high)
        throw new Refusal.OutOfRange("value", low + " to " + high, "a range from low to high");
    }
  }

  /** A level of the trait's scale. */
  record Level(String level) implements Value {}

  /** A word without an order, such as an S-genotype. */
  record Name(String name) implements Value {}
}
