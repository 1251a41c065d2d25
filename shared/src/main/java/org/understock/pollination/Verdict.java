package org.understock.pollination;

import java.util.Locale;

/** What one variety's pollen can do on another variety's flower, bloom time aside. */
public enum Verdict {
  /** All of the donor's pollen can grow. */
  FULL,
  /** Some of it can, usually half: a usable partner, scored lower. */
  PARTIAL,
  /** None of it can, or there is no pollen worth counting on. */
  NONE,
  /** The evidence does not say. */
  UNKNOWN;

  /** Slug used in the contract, such as {@code full}. */
  public String id() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** True when the pollen is known to work, wholly or in part. */
  public boolean isUsable() {
    return this == FULL || this == PARTIAL;
  }
}
