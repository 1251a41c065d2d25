package org.understock.advice;

import org.jspecify.annotations.Nullable;
import org.understock.wording.Words;

/**
 * One thing a grower may care about. A criterion is a preference that adds to the score, a limit
 * that multiplies it, or both. Its words are found by its id.
 *
 * @param id slug by which {@code goal.priorities} and the reasons name it; a pest's or disease's
 *     criterion has the slug of its trait
 */
public record Criterion(String id, boolean preference, boolean limit) {

  /** Criteria are looked up for every reason, and no two have one id. */
  @Override
  public boolean equals(@Nullable Object other) {
    return other instanceof Criterion criterion && id.equals(criterion.id);
  }

  @Override
  public int hashCode() {
    return id.hashCode();
  }

  /** For people. */
  public String label(Words words) {
    return words.say("criterion." + id + ".label");
  }

  /** What is judged, and against what. */
  public String definition(Words words) {
    return words.say("criterion." + id + ".definition");
  }

  static Criterion preference(String id) {
    return new Criterion(id, true, false);
  }

  static Criterion both(String id) {
    return new Criterion(id, true, true);
  }

  static Criterion limit(String id) {
    return new Criterion(id, false, true);
  }
}
