package org.understock.growth;

import org.jspecify.annotations.Nullable;
import org.understock.evidence.Estimate;
import org.understock.evidence.Subject;
import org.understock.evidence.TraitBook;

/** Short way to an estimate that may not be there. */
final class Estimates {
  private Estimates() {}

  /**
   * The estimate, or null when the book does not know the trait or has nothing about the subject.
   */
  static @Nullable Estimate of(TraitBook book, Subject subject, String trait) {
    if (book.traits().find(trait).isEmpty()) return null;
    return book.estimate(subject, trait).orElse(null);
  }
}
