package org.understock.growth;

import org.understock.site.Word;
import org.understock.trait.Refusal;

/**
 * How likely a tree needs no support, a stake until it is established, or support for life. The
 * three add up to 1.
 */
public record SupportNeed(double none, double untilEstablished, double permanent) {

  /** Levels of the trait {@code support-need}, least first. */
  public enum Level implements Word {
    NONE,
    UNTIL_ESTABLISHED,
    PERMANENT
  }

  public SupportNeed {
    if (!(Math.abs(none + untilEstablished + permanent - 1) < 1e-9)) {
      throw new Refusal.Conflict("support", "probabilities of support must add up to 1");
    }
  }

  /** The middle level: support is called for when it is needed more likely than not. */
  public Level likely() {
    return permanent > 0.5 ? Level.PERMANENT : none > 0.5 ? Level.NONE : Level.UNTIL_ESTABLISHED;
  }

  /**
   * The need where wind blows freely: a quarter of the trees that would stand alone want a stake at
   * first, and half of those staked at first want it for good. Common practice, no source for the
   * shares.
   */
  SupportNeed exposed() {
    return new SupportNeed(
        0.75 * none, 0.25 * none + 0.5 * untilEstablished, permanent + 0.5 * untilEstablished);
  }
}
