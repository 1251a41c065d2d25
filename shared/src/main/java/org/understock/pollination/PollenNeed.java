package org.understock.pollination;

import java.util.Locale;

/** What pollen a variety needs to bear. */
public enum PollenNeed {
  /** Sets a crop with its own pollen. */
  SELF_FERTILE,
  /** Sets some crop with its own pollen, more and more regularly with a partner's. */
  PARTLY,
  /** Needs one other variety. */
  NEEDS_ONE,
  /** Needs a second variety, and that one a third: its own pollen is of no use to its partner. */
  NEEDS_TWO,
  /** The evidence does not say. */
  UNKNOWN;

  /** Slug, such as {@code needs-one}. */
  public String id() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
