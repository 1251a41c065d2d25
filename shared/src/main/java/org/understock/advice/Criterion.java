package org.understock.advice;

/**
 * One thing a grower may care about. A criterion is a preference that adds to the score, a limit
 * that multiplies it, or both.
 *
 * @param id slug by which {@code goal.priorities} and the reasons name it; a pest's or disease's
 *     criterion has the slug of its trait
 * @param label for people
 * @param definition what is judged, and against what
 */
public record Criterion(
    String id, String label, String definition, boolean preference, boolean limit) {

  static Criterion preference(String id, String label, String definition) {
    return new Criterion(id, label, definition, true, false);
  }

  static Criterion both(String id, String label, String definition) {
    return new Criterion(id, label, definition, true, true);
  }

  static Criterion limit(String id, String label, String definition) {
    return new Criterion(id, label, definition, false, true);
  }
}
