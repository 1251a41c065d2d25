package org.understock.service.statement;

import io.swagger.v3.oas.annotations.media.Schema;
import jakarta.validation.constraints.Size;
import org.jspecify.annotations.Nullable;
import org.understock.trait.Refusal;
import org.understock.trait.Trait;
import org.understock.trait.Value;

/**
 * A quantity, a range with one or two ends, a level or a name: one of them.
 *
 * @param unit for quantities and ranges: may be given so that it is checked; values are always in
 *     the trait's unit
 */
@Schema(
    name = "RecordValue",
    description =
        "One of: a quantity, a range (low, high or both), a level of the trait's scale, a name.")
public record ValueBody(
    @Nullable Double quantity,
    @Nullable Double low,
    @Nullable Double high,
    @Size(min = 1, max = 100) @Nullable String level,
    @Size(min = 1, max = 100) @Nullable String name,
    @Size(max = 40)
        @Schema(
            description =
                "May be given with a quantity or range, so that it is checked against the trait's unit.")
        @Nullable String unit) {

  public static ValueBody of(Value value, @Nullable Trait trait) {
    String unit = trait == null || trait.unit().isEmpty() ? null : trait.unit();
    if (value instanceof Value.Quantity q)
      return new ValueBody(q.value(), null, null, null, null, unit);
    if (value instanceof Value.Range r)
      return new ValueBody(null, r.low(), r.high(), null, null, unit);
    if (value instanceof Value.Level l)
      return new ValueBody(null, null, null, l.level(), null, null);
    return new ValueBody(null, null, null, null, ((Value.Name) value).name(), null);
  }

  /**
   * @throws Refusal when it is none of the forms, or more than one, or in another unit than the
   *     trait's
   */
  Value value(@Nullable Trait trait) {
    int forms =
        (quantity != null ? 1 : 0)
            + (low != null || high != null ? 1 : 0)
            + (level != null ? 1 : 0)
            + (name != null ? 1 : 0);
    if (forms != 1)
      throw new Refusal.Conflict(
          "value", "a value is one of: quantity; low, high or both; level; name");
    if (unit != null && trait != null && !unit.equals(trait.unit())) {
      throw new Refusal.Conflict(
          "value.unit",
          "unit is '"
              + unit
              + "'; "
              + (trait.unit().isEmpty()
                  ? "trait " + trait.id() + " has none"
                  : "trait " + trait.id() + " is in " + trait.unit()));
    }
    if (quantity != null) return new Value.Quantity(finite("value.quantity", quantity));
    if (level != null) return new Value.Level(level);
    if (name != null) return new Value.Name(name);
    if (low != null && high != null && low > high)
      throw new Refusal.OutOfRange("value.high", high, "low (" + low + ") or more");
    if (low != null && low.equals(high)) return new Value.Quantity(finite("value.low", low));
    return new Value.Range(
        low == null ? null : finite("value.low", low),
        high == null ? null : finite("value.high", high));
  }

  private static double finite(String field, double value) {
    if (!Double.isFinite(value)) throw new Refusal.OutOfRange(field, value, "a finite number");
    return value == 0 ? 0 : value; // -0 says nothing that 0 does not, and would be another text
  }
}
