package org.understock.advice;

import org.jspecify.annotations.Nullable;

/**
 * How far a criterion matters on this site and for this goal.
 *
 * @param relevance 0 (not at all) to 1; multiplies the criterion's priority
 * @param because the circumstance, as the opening of a sentence: "The soil is poorly drained";
 *     empty when nothing was told
 * @param assumption what was assumed because it was not told, or null
 */
record Bearing(double relevance, String because, Advice.@Nullable Assumption assumption) {
  static final Bearing NONE = new Bearing(0, "", null);

  /** Whether the asker's own words bring the criterion up. */
  boolean told() {
    return assumption == null && !because.isEmpty();
  }

  static Bearing told(double relevance, String because) {
    return new Bearing(relevance, because, null);
  }

  static Bearing assumed(double relevance, String field, String text) {
    return new Bearing(relevance, "", new Advice.Assumption(field, text));
  }
}
