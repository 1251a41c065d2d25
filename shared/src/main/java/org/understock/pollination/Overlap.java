package org.understock.pollination;

import java.util.Locale;

/** How far two varieties are in bloom together. */
public enum Overlap {
  /** At least half of a short bloom is shared. */
  GOOD,
  /** The blooms touch: enough in a slow spring, short in a fast one. */
  SOME,
  /** The usual dates lie too far apart to count on. */
  POOR,
  /**
   * The bloom time of one of them is not known, or the two are known only on scales that cannot be
   * compared.
   */
  UNKNOWN;

  /** Slug used in the contract, such as {@code good}. */
  public String id() {
    return name().toLowerCase(Locale.ROOT);
  }
}
