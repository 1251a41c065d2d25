package org.understock.advice;

import org.jspecify.annotations.Nullable;
import org.understock.wording.Sentence;

/**
 * How far a criterion matters on this site and for this goal.
 *
 * @param relevance 0 (not at all) to 1; multiplies the criterion's priority
 * @param because the circumstance, as the opening of a sentence: "The soil is poorly drained"; null
 *     when nothing was told
 * @param assumption what was assumed because it was not told, or null
 */
record Bearing(double relevance, @Nullable Sentence because, @Nullable Assumed assumption) {
  static final Bearing NONE = new Bearing(0, null, null);

  /**
   * @param field path of the missing input, such as {@code site.soil.drainage}
   */
  record Assumed(String field, Sentence text) {}

  /** Whether the asker's own words bring the criterion up. */
  boolean told() {
    return assumption == null && because != null;
  }

  static Bearing told(double relevance, Sentence because) {
    return new Bearing(relevance, because, null);
  }

  /** It matters so much whatever the asker tells, and there is nothing to be said of it. */
  static Bearing always(double relevance) {
    return new Bearing(relevance, null, null);
  }

  static Bearing assumed(double relevance, String field, Sentence text) {
    return new Bearing(relevance, null, new Assumed(field, text));
  }
}
