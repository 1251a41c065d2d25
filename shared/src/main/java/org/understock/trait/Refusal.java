package org.understock.trait;

/**
 * What the engine says when it is given something it cannot use. The message names the thing, the
 * value, the range and the fix; the field is a camelCase path ({@code site.soil.ph}) or a column
 * name, so that each door (HTTP, CSV) can point at the place in its own terms.
 */
public abstract sealed class Refusal extends RuntimeException {
  private final String field;

  private Refusal(String field, String message) {
    super(message, null, false, false);
    this.field = field;
  }

  public String field() {
    return field;
  }

  @Override
  public String getMessage() {
    return java.util.Objects.requireNonNull(super.getMessage());
  }

  /** A number outside its range, or not a number at all. */
  public static final class OutOfRange extends Refusal {
    private final String allowed;

    /**
     * @param allowed the range in words, such as {@code "between 3 and 10"}
     */
    public OutOfRange(String field, Object given, String allowed) {
      super(field, field + " is " + given + "; must be " + allowed);
      this.allowed = allowed;
    }

    public String allowed() {
      return allowed;
    }
  }

  /** A word or id that is not known; the nearest known ones come with it. */
  public static final class Unknown extends Refusal {
    private final java.util.List<String> nearest;

    public Unknown(String field, String given, java.util.List<String> nearest) {
      super(
          field,
          field
              + " '"
              + given
              + "' is not known"
              + (nearest.isEmpty() ? "" : "; nearest known: " + String.join(", ", nearest)));
      this.nearest = java.util.List.copyOf(nearest);
    }

    public java.util.List<String> nearest() {
      return nearest;
    }
  }

  /** Two things that cannot both be meant. */
  public static final class Conflict extends Refusal {
    public Conflict(String field, String message) {
      super(field, message);
    }
  }
}
