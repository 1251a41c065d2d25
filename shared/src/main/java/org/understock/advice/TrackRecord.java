package org.understock.advice;

import java.util.HashSet;
import java.util.Set;
import org.understock.evidence.Grade;
import org.understock.evidence.Method;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;
import org.understock.evidence.TraitRecord;

/**
 * How much is on record of a stock or a variety. A tree stands for decades, so of two that promise
 * the same the well tried one comes first: one good trait told by one source is not yet a good
 * tree.
 *
 * @param voices independent published sources that speak of it; sources of one origin are one
 *     voice, memory and unpublished practice are none
 */
record TrackRecord(int voices) {
  /** From one voice (nothing to go by) to eight (as well known as any): a judgement. */
  private static final Ramp KNOWN = Ramp.between(1, 8);

  static TrackRecord of(TraitBook book, Subject subject) {
    Set<String> voices = new HashSet<>();
    for (TraitRecord record : book.records(subject)) {
      if (record.method() == Method.FROM_MEMORY || record.method() == Method.COMMON_PRACTICE)
        continue;
      voices.add(Grade.voice(record, book.evidence().sources()));
    }
    return new TrackRecord(voices.size());
  }

  /** 0 to 1. */
  double met() {
    return voices == 0 ? 0 : KNOWN.of(Math.log(voices));
  }
}
